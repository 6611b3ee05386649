import type { JSX } from 'preact';
import { useBook } from '../book-context';
import { Glyph } from '../glyph';

/** Another program has the book open, or its disk refuses: it can be looked at, and measuring goes on. */
export function ReadOnlyBar(): JSX.Element | null {
  const { readOnly } = useBook().book.state.value;
  if (readOnly === null) return null;
  return (
    <div class="book-bar note" role="status">
      <Glyph kind="note" />
      <div>
        <b>To be looked at only.</b> {readOnly}
      </div>
    </div>
  );
}

/** What was asked and refused, and has changed nothing; or what was lost. */
export function RefusedBar(): JSX.Element | null {
  const { book } = useBook();
  const { refused, lost } = book.state.value;
  const told = refused ?? lost;
  if (told === null) return null;
  return (
    <div class="book-bar" role="alert">
      <Glyph kind="refuse" />
      <div>
        <b>{told.message}</b> {told.remedy}
      </div>
      <button onClick={() => book.dismissRefused()}>Put away</button>
    </div>
  );
}

/** Changes that are not in the book, with what to do about them. */
export function NotSavedBar(): JSX.Element | null {
  const { book } = useBook();
  const { saving, unsaved } = book.state.value;
  if (saving.kind !== 'not-saved') return null;
  const isOne = unsaved.length === 1;
  const shown = unsaved.slice(-3).map(({ unitName, what }) => `${unitName}: ${what}`);
  return (
    <div class="book-bar" role="alert" data-not-saved>
      <Glyph kind="refuse" />
      <div>
        <b>
          {isOne ? 'One change is not saved.' : `${unsaved.length} changes are not saved.`} {saving.error.message}
        </b>{' '}
        {saving.error.remedy} {isOne ? 'It is' : 'They are'} kept here meanwhile, also when the page is left:{' '}
        {shown.join('; ')}
        {unsaved.length > shown.length ? ' and earlier ones' : ''}.
      </div>
      <button class="go" onClick={() => void book.save()}>
        Save again
      </button>
      <button onClick={() => book.dropUnsaved()}>Give {isOne ? 'it' : 'them'} up</button>
    </div>
  );
}

/** In a word or two, always in view: whether everything stands in the book. */
export function SaveState(): JSX.Element {
  const { saving, readOnly, record } = useBook().book.state.value;
  if (readOnly !== null) return <span class="save-state">to be looked at only</span>;
  if (saving.kind === 'saving') return <span class="save-state">saving</span>;
  if (saving.kind === 'not-saved') {
    return (
      <span class="save-state not">
        <Glyph kind="refuse" /> not saved
      </span>
    );
  }
  // Of a unit that cannot be read nothing of the kind is known.
  if (!record) return <span class="save-state" />;
  return (
    <span class="save-state" title={`Revision ${record.revision}`}>
      <Glyph kind="pass" /> saved
    </span>
  );
}
