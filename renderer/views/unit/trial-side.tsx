import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { UnitTrial } from '../../../core/contract/unit-record';
import { plannedWords } from '../../../core/display/planned-words';
import { useBook, useUnit } from '../book-context';
import { Fields, FieldInput } from '../record/field-input';
import { ofTrial } from '../record/field-path';
import { trialFields } from '../record/fields';
import { useTyped } from '../record/use-typed';
import { NewTrial } from './new-trial';
import { ReadingWords } from './reading-words';
import { readingOf } from './unit-facts';

const nameField = { path: ['name'], label: 'Name', kind: { as: 'line' } } as const;

/** Why this trial stays in the unit; the reason is written where it is chosen. */
function Choosing({ trial }: { readonly trial: UnitTrial }): JSX.Element {
  const { book } = useBook();
  const { chosen } = useUnit();
  const isChosen = chosen?.trial === trial.name;
  const [why, setWhy] = useTyped((isChosen && chosen.why) || '', false);
  const isLocked = book.state.value.readOnly !== null;
  const choose = (): void => book.edit(`${trial.name} chosen`, [{ kind: 'choose-trial', trial: trial.name, why }]);
  return (
    <section class="choosing" aria-label="Choice">
      <label class="field">
        {isChosen ? 'Chosen, because' : 'Choose it, because'}
        <textarea
          rows={2}
          value={why}
          disabled={isLocked}
          placeholder="what decided it"
          onInput={(event) => setWhy(event.currentTarget.value)}
          onChange={() => {
            if (isChosen && why.trim() !== (chosen.why ?? '')) choose();
          }}
        />
      </label>
      {!isChosen && (
        <button class="go" data-choose disabled={isLocked} onClick={choose}>
          Choose this trial <kbd>C</kbd>
        </button>
      )}
    </section>
  );
}

/** Everything about one trial but its lamps, which are on the plan. */
export function TrialSide({ trial, window }: { readonly trial: UnitTrial; readonly window: string }): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const [isCopying, setIsCopying] = useState(false);
  const isLocked = book.state.value.readOnly !== null;
  const of = ofTrial(trial.name);
  const reading = readingOf(record, window, trial.name);
  const planned = plannedWords(record, trial, window, reading?.evenness ?? null);
  return (
    <>
      <h1>{trial.name}</h1>
      {trial.like !== undefined && (
        <p class="hint">
          Begun like {trial.like}
          {trial.mirroredTo === undefined ? '' : `, mirrored to ${trial.mirroredTo}`}.
        </p>
      )}
      <ReadingWords reading={reading} />
      {planned !== null && <p data-planned>Planned: {planned}</p>}
      <Choosing trial={trial} />
      <FieldInput of={of} field={nameField} />
      <Fields of={of} fields={trialFields} />
      <LightsWindows trial={trial} />
      <p class="row">
        <button disabled={isLocked} onClick={() => setIsCopying(true)}>
          Begin another like it
        </button>
        <button
          disabled={isLocked}
          onClick={() => book.edit(`${trial.name} removed`, [{ kind: 'remove', list: 'trials', name: trial.name }])}
        >
          Remove
        </button>
      </p>
      <NewTrial isOpen={isCopying} window={window} like={trial.name} onClose={() => setIsCopying(false)} />
    </>
  );
}

/** A trial may light one window only. */
function LightsWindows({ trial }: { readonly trial: UnitTrial }): JSX.Element | null {
  const { book } = useBook();
  const { windows } = useUnit();
  if (windows.length < 2) return null;
  const lit = trial.windows ?? windows.map(({ name }) => name);
  const set = (name: string, isLit: boolean): void => {
    const left = windows.map((window) => window.name).filter((other) => (other === name ? isLit : lit.includes(other)));
    const text = left.length === 0 || left.length === windows.length ? '' : JSON.stringify(left);
    book.set(`trials[${JSON.stringify(trial.name)}].windows`, text, 'windows that it lights');
  };
  return (
    <fieldset class="field">
      <legend>It lights</legend>
      {windows.map(({ name }) => (
        <label key={name} class="row">
          <input
            type="checkbox"
            checked={lit.includes(name)}
            disabled={book.state.value.readOnly !== null}
            onChange={(event) => set(name, event.currentTarget.checked)}
          />
          {name}
        </label>
      ))}
    </fieldset>
  );
}
