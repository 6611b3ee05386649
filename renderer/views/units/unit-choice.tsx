import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { BookEntry, UnitId } from '../../../core/contract/book-verbs';
import { CallFailed } from '../../link/bench-link';
import { useBook } from '../book-context';

type Listed = Extract<BookEntry, { name: string }>;

/** So many are offered; a search finds the others. */
const mostOffered = 40;
const typingPauseMs = 150;

/** A unit of the book, found by typing a part of what it holds. */
export function UnitChoice(props: {
  readonly label: string;
  readonly none: string;
  readonly value: UnitId | null;
  readonly onChange: (unit: UnitId | null) => void;
}): JSX.Element {
  const { label, none, value, onChange } = props;
  const { book } = useBook();
  const [search, setSearch] = useState('');
  const [found, setFound] = useState<readonly Listed[]>([]);
  const [chosen, setChosen] = useState<Listed | null>(null);
  useEffect(() => {
    let isWanted = true;
    const ask = async (): Promise<void> => {
      try {
        const { entries } = await book.link.call('bookList', { search });
        if (!isWanted) return;
        const listed = entries.filter((entry): entry is Listed => !('error' in entry));
        setFound(listed);
        // What is chosen stays in the list, whatever is searched for afterwards.
        setChosen((old) => listed.find(({ id }) => id === value) ?? old);
      } catch (error) {
        // Nothing can be chosen then; the screen behind says why.
        if (!(error instanceof CallFailed)) throw error;
      }
    };
    const pause = setTimeout(() => void ask(), search === '' ? 0 : typingPauseMs);
    return () => {
      isWanted = false;
      clearTimeout(pause);
    };
  }, [search]);
  const offered = found.slice(0, mostOffered);
  const choose = (id: string): void => {
    setChosen(found.find((entry) => entry.id === id) ?? null);
    onChange(id || null);
  };
  return (
    <div class="unit-choice">
      <label class="field">
        {label}
        <select value={value ?? ''} onChange={(event) => choose(event.currentTarget.value)}>
          <option value="">{none}</option>
          {chosen && chosen.id === value && !offered.some(({ id }) => id === chosen.id) && (
            <option value={chosen.id}>{chosen.name}</option>
          )}
          {offered.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {(found.length > mostOffered || search !== '') && (
        <label class="field">
          Find it by a word
          <input type="search" value={search} onInput={(event) => setSearch(event.currentTarget.value)} />
        </label>
      )}
    </div>
  );
}
