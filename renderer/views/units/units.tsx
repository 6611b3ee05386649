import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { BookEntry } from '../../../core/contract/book-verbs';
import { useBook } from '../book-context';
import { Glyph } from '../glyph';
import { ShootingGuide } from '../shooting-guide';
import { NotSavedBar, ReadOnlyBar, RefusedBar } from '../unit/save-state';
import { NewUnit } from './new-unit';
import { UnitRow, UnreadableRow } from './unit-row';
import { useVisibleRows } from './visible-rows';

/** Heights of a row, as the style sheet has them. */
const rowPx = 116;
const narrowRowPx = 330;
const narrow = '(max-width: 900px)';

/** Typing may pause so long before the book is searched. */
const typingPauseMs = 150;
/** The book may be changed from outside: by the command line, or by samples that are still coming in. */
const lookAgainMs = 3000;

function useIsNarrow(): boolean {
  const [isNarrow, setIsNarrow] = useState(() => matchMedia(narrow).matches);
  useEffect(() => {
    const query = matchMedia(narrow);
    const change = (): void => setIsNarrow(query.matches);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, []);
  return isNarrow;
}

/** All units of the book; the page takes a dropped photo here as everywhere. */
export function UnitsScreen({ onOpenFiles }: { readonly onOpenFiles: () => void }): JSX.Element {
  const { book } = useBook();
  const { entries, search, readOnly, listError } = book.state.value;
  const [typed, setTyped] = useState(search);
  const [isNewOpen, setIsNewOpen] = useState(false);
  useEffect(() => {
    void book.list();
    const again = setInterval(() => document.visibilityState === 'visible' && void book.list(), lookAgainMs);
    return () => clearInterval(again);
  }, [book]);
  useEffect(() => {
    if (typed === search) return undefined;
    const pause = setTimeout(() => void book.list(typed), typingPauseMs);
    return () => clearTimeout(pause);
  }, [typed]);
  return (
    <main class="units well" aria-label="Units">
      <ReadOnlyBar />
      <NotSavedBar />
      <RefusedBar />
      <header class="units-head">
        <h1>Units</h1>
        <p class="counted" role="status">
          {countedWords(entries, search)}
        </p>
        <input
          type="search"
          data-search
          aria-label="Search units"
          placeholder="Name, number, owner, lamp, part"
          value={typed}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <button onClick={onOpenFiles}>Bring in a unit file</button>
        <button class="go" data-new-unit disabled={readOnly !== null} onClick={() => setIsNewOpen(true)}>
          New unit <kbd>N</kbd>
        </button>
      </header>
      {listError ? (
        <div class="book-error" role="alert">
          <h2>
            <Glyph kind="refuse" /> {listError.message}
          </h2>
          <p>{listError.remedy}</p>
          <p>Photos can be measured meanwhile: drop one anywhere.</p>
          <button onClick={() => void book.list()}>Read the book again</button>
        </div>
      ) : entries === null ? (
        <p class="quiet-line">The book is being opened.</p>
      ) : entries.length === 0 ? (
        <EmptyList search={search} onShowAll={() => setTyped('')} onOpenFiles={onOpenFiles} />
      ) : (
        <UnitList entries={entries} />
      )}
      <MeasureFirst onOpenFiles={onOpenFiles} />
      <NewUnit isOpen={isNewOpen} onClose={() => setIsNewOpen(false)} />
    </main>
  );
}

function countedWords(entries: readonly BookEntry[] | null, search: string): string {
  if (entries === null) return '';
  const count = entries.length === 1 ? '1 unit' : `${entries.length} units`;
  if (search.trim() !== '') return `${count} with ${JSON.stringify(search.trim())}`;
  return `${count}, the last saved first. All windows drawn to one scale.`;
}

function UnitList({ entries }: { readonly entries: readonly BookEntry[] }): JSX.Element {
  const { places } = useBook();
  const list = useRef<HTMLOListElement>(null);
  const [current, setCurrent] = useState(0);
  const rowHigh = useIsNarrow() ? narrowRowPx : rowPx;
  const { from, to } = useVisibleRows(list, rowHigh, entries.length);
  const open = ({ id }: BookEntry): void => places.goTo({ at: 'unit', unit: id, view: 'windows' });
  const wanted = useRef<number | null>(null);
  useEffect(() => {
    if (wanted.current === null) return;
    const row = list.current?.querySelector<HTMLElement>(`[data-row="${wanted.current}"]`);
    if (!row) return;
    row.focus();
    row.scrollIntoView({ block: 'nearest' });
    wanted.current = null;
  });
  const goTo = (index: number): void => {
    const at = Math.max(0, Math.min(entries.length - 1, index));
    wanted.current = at;
    // A row far away is drawn only once it is near what is seen.
    const box = list.current?.getBoundingClientRect();
    if (box && (at < from || at >= to)) scroller(list.current)?.scrollBy(0, box.top + at * rowHigh - 200);
    setCurrent(at);
  };
  const onKey = (event: KeyboardEvent): void => {
    const steps: Readonly<Record<string, number>> = {
      ArrowDown: current + 1,
      ArrowUp: current - 1,
      PageDown: current + 6,
      PageUp: current - 6,
      Home: 0,
      End: entries.length - 1,
    };
    const next = steps[event.key];
    if (next === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    goTo(next);
  };
  const shown = entries.slice(from, to);
  // The row that Tab reaches is always there, or the list could not be entered.
  const reached = current >= from && current < to ? current : from;
  return (
    <>
      <div class="unit-columns" aria-hidden="true">
        <span>Unit</span>
        <span>With filament lamps</span>
        <span>Chosen trial, or the newest</span>
        <span>Evenness</span>
        <span>
          Red print
          <br />
          <small>% of filament</small>
        </span>
        <span>
          Colour
          <br />
          <small>10⁻³ u′v′</small>
        </span>
        <span>Where it stands</span>
      </div>
      <ol
        ref={list}
        class="unit-rows"
        aria-label="Units"
        style={{ height: `${entries.length * rowHigh}px` }}
        onKeyDown={onKey}
      >
        {shown.map((entry, i) => {
          const index = from + i;
          return (
            <li
              key={entry.id}
              style={{ top: `${index * rowHigh}px` }}
              aria-setsize={entries.length}
              aria-posinset={index + 1}
            >
              <button
                class="unit-row"
                data-row={index}
                data-unit={entry.id}
                tabIndex={index === reached ? 0 : -1}
                onFocus={() => setCurrent(index)}
                onClick={() => open(entry)}
              >
                {'error' in entry ? <UnreadableRow entry={entry} /> : <UnitRow entry={entry} />}
              </button>
            </li>
          );
        })}
      </ol>
    </>
  );
}

/** What scrolls round an element: the screen itself where the page is one column. */
function scroller(element: HTMLElement | null): Element | null {
  for (let at = element?.parentElement ?? null; at; at = at.parentElement) {
    if (/auto|scroll/.test(getComputedStyle(at).overflowY) && at.scrollHeight > at.clientHeight) return at;
  }
  return document.scrollingElement;
}

function EmptyList({
  search,
  onShowAll,
  onOpenFiles,
}: {
  readonly search: string;
  readonly onShowAll: () => void;
  readonly onOpenFiles: () => void;
}): JSX.Element {
  if (search.trim() !== '') {
    return (
      <div class="quiet-line">
        <p>No unit holds all of these words: {search.trim()}.</p>
        <button onClick={onShowAll}>Show all units</button>
      </div>
    );
  }
  return (
    <div class="first-unit">
      <h2>The book is empty</h2>
      <p>
        A unit is one piece of equipment on the bench. It keeps its windows, every trial with its photos, what was
        chosen and why, so that the next one can be done the same way.
      </p>
      <button onClick={onOpenFiles}>Bring in a unit file</button>
      <ShootingGuide />
    </div>
  );
}

/** Nothing has to be filed before it can be measured. */
function MeasureFirst({ onOpenFiles }: { readonly onOpenFiles: () => void }): JSX.Element {
  const { places } = useBook();
  return (
    <aside class="measure-first" aria-label="Measure first">
      <p>
        <b>Drop a photo anywhere to measure it.</b> It can be filed into a unit afterwards.
      </p>
      <button onClick={onOpenFiles}>
        Open photos <kbd>Ctrl O</kbd>
      </button>
      <button onClick={() => places.goTo({ at: 'bench' })}>
        To the bench <kbd>U</kbd>
      </button>
    </aside>
  );
}
