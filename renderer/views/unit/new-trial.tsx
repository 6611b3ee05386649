import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { LightKind } from '../../../core/contract/light';
import { Ask } from '../ask';
import { useBook, useUnit } from '../book-context';
import { Kinds } from '../fields';
import { lightWords } from '../words';
import { nextTrialName } from './unit-facts';

interface NewTrialProps {
  readonly isOpen: boolean;
  readonly window: string;
  /** The trial that it begins as a copy of. */
  readonly like?: string;
  readonly onClose: () => void;
}

/** A trial of its own, a copy of another one, or a copy mirrored to the window on the other side. */
export function NewTrial(props: NewTrialProps): JSX.Element {
  return (
    <Ask title="New trial" isOpen={props.isOpen} onClose={props.onClose}>
      <NewTrialForm {...props} />
    </Ask>
  );
}

function NewTrialForm({ window, like, onClose }: NewTrialProps): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const [name, setName] = useState(() => nextTrialName(record));
  const [from, setFrom] = useState(like ?? record.trials.at(-1)?.name ?? '');
  const [light, setLight] = useState<LightKind | ''>('');
  const [mirrorTo, setMirrorTo] = useState('');
  const isTaken = record.trials.some((trial) => trial.name === name.trim());
  const add = (): void => {
    book.edit(`trial ${name.trim()} begun`, [
      {
        kind: 'add-trial',
        name: name.trim(),
        light: light === '' ? null : light,
        like: from === '' ? null : from,
        mirrorTo: from === '' || mirrorTo === '' ? null : mirrorTo,
      },
    ]);
    onClose();
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (name.trim() !== '' && !isTaken) add();
      }}
    >
      <label class="field">
        Name
        <input value={name} maxLength={200} autofocus onInput={(event) => setName(event.currentTarget.value)} />
        {isTaken && <span role="alert">There is a trial of this name already.</span>}
      </label>
      <label class="field">
        Begin like
        <select value={from} onChange={(event) => setFrom(event.currentTarget.value)}>
          <option value="">nothing: no lamps yet</option>
          {record.trials.map((trial) => (
            <option key={trial.name}>{trial.name}</option>
          ))}
        </select>
      </label>
      {from !== '' && (
        <label class="field">
          Its lamps
          <select value={mirrorTo} onChange={(event) => setMirrorTo(event.currentTarget.value)}>
            <option value="">as they are</option>
            {record.windows.map((one) => (
              <option key={one.name} value={one.name}>
                mirrored left to right, to light {one.name}
                {one.name === window ? ' (this window)' : ''}
              </option>
            ))}
          </select>
        </label>
      )}
      <label class="field">
        Kind of light
        <select value={light} onChange={(event) => setLight(event.currentTarget.value as LightKind | '')}>
          <option value="">{from === '' ? 'not recorded' : 'as there'}</option>
          <Kinds words={lightWords} />
        </select>
      </label>
      <p class="row">
        <button class="go" type="submit" disabled={name.trim() === '' || isTaken}>
          Begin the trial
        </button>
        <button type="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}
