import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { UnitId } from '../../../core/contract/book-verbs';
import { Ask } from '../ask';
import { useBook } from '../book-context';
import { UnitChoice } from './unit-choice';

/** Asks for a name, and for the unit that it begins like. */
export function NewUnit(props: {
  readonly isOpen: boolean;
  readonly like?: UnitId;
  readonly onClose: () => void;
}): JSX.Element {
  return (
    <Ask title="New unit" isOpen={props.isOpen} onClose={props.onClose}>
      <NewUnitForm {...props} />
    </Ask>
  );
}

function NewUnitForm(props: { readonly like?: UnitId; readonly onClose: () => void }): JSX.Element {
  const { book, places } = useBook();
  const [name, setName] = useState('');
  const [like, setLike] = useState<UnitId | null>(props.like ?? null);
  const [isBusy, setIsBusy] = useState(false);
  const create = async (): Promise<void> => {
    setIsBusy(true);
    const record = await book.create(name.trim(), like);
    props.onClose();
    if (record) places.goTo({ at: 'unit', unit: record.id, view: 'windows' });
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() !== '') void create();
      }}
    >
      <label class="field">
        Name
        <input
          value={name}
          placeholder="maker and model"
          maxLength={200}
          autofocus
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <UnitChoice label="Begin like" none="nothing: an empty record" value={like} onChange={setLike} />
      <p class="hint">
        Another unit gives its windows, what was there before, the trials with their lamps and the parts. Photos,
        readings, the choice and the owner stay with it.
      </p>
      <p class="row">
        <button class="go" type="submit" disabled={name.trim() === '' || isBusy}>
          Begin the record
        </button>
        <button type="button" onClick={props.onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}
