import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { UnitEdit } from '../../../core/contract/book-verbs';
import type { UnitLamp, UnitTrial, UnitWindow } from '../../../core/contract/unit-record';
import { unsavedText, wordsAtField } from '../../state/book-state';
import { useBook, useUnit } from '../book-context';
import { Fields } from '../record/field-input';
import { ofLamp, ofString, pathText, type FieldPath } from '../record/field-path';
import { lampFields, stringFields } from '../record/fields';
import { keptNumbers, takenOver, wholeText } from './numbers-together';
import { firstPlace, nextName } from './plan-places';

/** Numbers that are one field of the record: a place or a tilt. */
function Together(props: {
  readonly path: FieldPath;
  readonly labels: readonly string[];
  readonly values: readonly number[] | undefined;
  /** For numbers that nobody has given when another one is. */
  readonly otherwise: readonly number[];
  readonly what: string;
}): JSX.Element {
  const { path, labels, values, otherwise, what } = props;
  const { book } = useBook();
  const { id } = useUnit();
  const field = pathText(path);
  const { unsaved, refusedFields, readOnly } = book.state.value;
  const kept = keptNumbers(unsavedText(unsaved, id, field), values, labels.length);
  const [texts, setTexts] = useState<readonly string[]>(kept);
  const taken = useRef<readonly string[]>(kept);
  const refused = refusedFields.get(field);
  const isLocked = readOnly !== null;
  useEffect(() => {
    if (refused) return;
    setTexts((typed) => takenOver(typed, taken.current, kept));
    taken.current = kept;
  }, [kept.join(' '), refused]);
  const done = (typed: readonly string[]): void => {
    const plain = typed.map((text) => text.trim().replace(',', '.'));
    if (plain.join(' ') === kept.join(' ') && !refused) return;
    book.set(field, wholeText(plain, otherwise), what);
  };
  return (
    <>
      {labels.map((label, i) => (
        <td key={label}>
          <input
            aria-label={`${what}: ${label}`}
            inputMode="decimal"
            value={texts[i]}
            disabled={isLocked}
            aria-invalid={refused !== undefined}
            title={refused ? wordsAtField(refused) : undefined}
            onInput={(event) => setTexts(texts.map((text, k) => (k === i ? event.currentTarget.value : text)))}
            onChange={(event) => done(texts.map((text, k) => (k === i ? event.currentTarget.value : text)))}
          />
        </td>
      ))}
    </>
  );
}

/** A lamp cannot go before the strings that it is on have let go of it. */
function removalOf(trial: UnitTrial, lamp: string): UnitEdit[] {
  const held = (trial.strings ?? []).filter(({ lamps = [] }) => lamps.includes(lamp));
  const freed = held.map(({ name, lamps = [] }): UnitEdit => {
    const left = lamps.filter((other) => other !== lamp);
    const field = pathText([...ofString(trial.name, name), 'lamps']);
    return { kind: 'set', field, text: left.length === 0 ? '' : JSON.stringify(left) };
  });
  return [...freed, { kind: 'set', field: pathText(ofLamp(trial.name, lamp)), text: '' }];
}

function LampRow(props: {
  readonly trial: UnitTrial;
  readonly window: UnitWindow;
  readonly lamp: UnitLamp;
}): JSX.Element {
  const { trial, window, lamp } = props;
  const { book } = useBook();
  const of = ofLamp(trial.name, lamp.name);
  const isLocked = book.state.value.readOnly !== null;
  return (
    <tr data-lamp-row={lamp.name}>
      <th scope="row">
        <span class="cut" title={lamp.name}>
          {lamp.name}
        </span>
      </th>
      <Together
        path={[...of, 'positionMm']}
        labels={['across', 'down', 'behind']}
        values={lamp.positionMm}
        otherwise={firstPlace(window)}
        what={`${lamp.name} place`}
      />
      <Together
        path={[...of, 'tiltDeg']}
        labels={['to the right', 'down']}
        values={lamp.tiltDeg}
        otherwise={[0, 0]}
        what={`${lamp.name} tilt`}
      />
      <td>
        <label class="row">
          <input
            type="checkbox"
            checked={lamp.on !== false}
            disabled={isLocked}
            aria-label={`${lamp.name} is on`}
            onChange={(event) => {
              const isOn = event.currentTarget.checked;
              book.set(pathText([...of, 'on']), isOn ? 'yes' : 'no', `${lamp.name} ${isOn ? 'on' : 'off'}`);
            }}
          />
          on
        </label>
      </td>
      <td>
        <button
          class="plain"
          disabled={isLocked}
          aria-label={`Remove ${lamp.name}`}
          onClick={() => book.edit(`${lamp.name} removed`, removalOf(trial, lamp.name))}
        >
          Remove
        </button>
      </td>
    </tr>
  );
}

/** Place and tilt of each lamp in numbers, what it is, and the strings that feed them. */
export function LampTable({ trial, window }: { readonly trial: UnitTrial; readonly window: UnitWindow }): JSX.Element {
  const { book } = useBook();
  const { lamps = [], strings = [] } = trial;
  const isLocked = book.state.value.readOnly !== null;
  const addString = (): void => {
    const name = nextName('string', strings);
    const field = pathText([...ofString(trial.name, name), 'lamps']);
    book.set(field, JSON.stringify(lamps.map((lamp) => lamp.name)), `${name} added`);
  };
  return (
    <>
      <div class="scroll-across">
        <table class="lamp-table">
          <thead>
            <tr>
              <th scope="col">Lamp</th>
              <th scope="col">Across, mm</th>
              <th scope="col">Down</th>
              <th scope="col">Behind</th>
              <th scope="col">Tilt right, °</th>
              <th scope="col">Tilt down</th>
              <td colSpan={2} />
            </tr>
          </thead>
          <tbody>
            {lamps.map((lamp) => (
              <LampRow key={lamp.name} trial={trial} window={window} lamp={lamp} />
            ))}
          </tbody>
        </table>
      </div>
      {lamps.map((lamp) => (
        <details key={lamp.name} class="fold">
          <summary>
            {lamp.name}: what it is{' '}
            <small>{[lamp.type, lamp.lot, lamp.lensTreatment].filter(Boolean).join(', ')}</small>
          </summary>
          <Fields of={ofLamp(trial.name, lamp.name)} fields={lampFields} />
        </details>
      ))}
      {strings.map((string) => (
        <details key={string.name} class="fold">
          <summary>
            {string.name}: how it is fed{' '}
            <small>
              {[
                string.resistorOhm === undefined ? '' : `${string.resistorOhm} Ω`,
                string.measuredMa === undefined ? '' : `${string.measuredMa} mA`,
                (string.lamps ?? []).join(' + '),
              ]
                .filter(Boolean)
                .join(', ')}
            </small>
          </summary>
          <StringLamps trial={trial} string={string.name} on={string.lamps ?? []} />
          <Fields of={ofString(trial.name, string.name)} fields={stringFields} />
          <button
            class="plain"
            disabled={isLocked}
            onClick={() => book.set(pathText(ofString(trial.name, string.name)), '', `${string.name} removed`)}
          >
            Remove {string.name}
          </button>
        </details>
      ))}
      <p class="row">
        <button disabled={isLocked} onClick={addString}>
          Add a string with its resistor
        </button>
      </p>
    </>
  );
}

function StringLamps(props: {
  readonly trial: UnitTrial;
  readonly string: string;
  readonly on: readonly string[];
}): JSX.Element {
  const { trial, string, on } = props;
  const { book } = useBook();
  const set = (name: string, isOn: boolean): void => {
    const lamps = (trial.lamps ?? []).map((lamp) => lamp.name);
    const left = lamps.filter((lamp) => (lamp === name ? isOn : on.includes(lamp)));
    const field = pathText([...ofString(trial.name, string), 'lamps']);
    book.set(field, left.length === 0 ? '' : JSON.stringify(left), `lamps of ${string}`);
  };
  return (
    <p class="row" role="group" aria-label={`Lamps of ${string}`}>
      {(trial.lamps ?? []).map(({ name }) => (
        <label key={name} class="row">
          <input
            type="checkbox"
            checked={on.includes(name)}
            disabled={book.state.value.readOnly !== null}
            onChange={(event) => set(name, event.currentTarget.checked)}
          />
          {name}
        </label>
      ))}
    </p>
  );
}
