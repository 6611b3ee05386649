import type { ComponentChildren, JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { UnitRecord } from '../../../core/contract/unit-record';
import { useBook, useUnit } from '../book-context';
import { LampTable } from '../unit/lamp-table';
import { nextName } from '../unit/plan-places';
import { Fields, FieldInput } from './field-input';
import { ofPart, ofTrial, pathText, valueAt } from './field-path';
import {
  afterFields,
  beforeGroups,
  notesField,
  partFields,
  photographyFields,
  trialFields,
  unitFields,
  type RecordField,
} from './fields';

const answered = (record: UnitRecord, fields: readonly RecordField[]): number =>
  fields.filter(({ path }) => valueAt(record, path) !== undefined).length;

/** A group that is folded until it is wanted; its head says how much of it is answered. */
function Folded(props: {
  readonly title: string;
  readonly note: string;
  readonly isOpen?: boolean;
  readonly children: ComponentChildren;
}): JSX.Element {
  const { title, note, isOpen = false, children } = props;
  return (
    <details class="record-group" open={isOpen} data-group={title}>
      <summary>
        <h2>{title}</h2> <small>{note}</small>
      </summary>
      {children}
    </details>
  );
}

const ofAll = (count: number, all: number): string =>
  count === 0 ? 'nothing recorded' : `${count} of ${all} recorded`;

/** All that the record asks for; everything may be left open, and is saved as it is typed. */
export function Facts(): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const before = beforeGroups.flatMap(({ fields }) => fields);
  const isLocked = book.state.value.readOnly !== null;
  const addPart = (): void => {
    const name = nextName('part', record.parts);
    book.set(pathText([...ofPart(name), 'count']), '1', `${name} added`);
  };
  return (
    <main class="well facts" aria-label="Facts">
      <h1>{record.name}</h1>
      <p>All of it may be left open. What is recorded stands on the record sheet; the rest says “not recorded”.</p>
      <Folded title="The unit" note={ofAll(answered(record, unitFields), unitFields.length)} isOpen>
        <Fields fields={unitFields} />
      </Folded>
      <Folded
        title="Before"
        note={ofAll(answered(record, before), before.length)}
        isOpen={answered(record, before) === 0}
      >
        {beforeGroups.map(({ title, fields }) => (
          <section key={title}>
            <h3>{title}</h3>
            <Fields fields={fields} />
          </section>
        ))}
      </Folded>
      <Folded title="During" note={record.trials.length === 1 ? '1 trial' : `${record.trials.length} trials`}>
        <During />
      </Folded>
      <Folded title="After" note={ofAll(answered(record, afterFields), afterFields.length)}>
        <Fields fields={afterFields} />
      </Folded>
      <Folded title="Photography" note={ofAll(answered(record, photographyFields), photographyFields.length)}>
        <Fields fields={photographyFields} />
      </Folded>
      <Folded title="Parts" note={record.parts.length === 1 ? '1 part' : `${record.parts.length} parts`}>
        {record.parts.map(({ name }, i) => (
          <section key={i} aria-label={name}>
            <h3>{name}</h3>
            <Fields
              of={ofPart(name)}
              fields={[{ path: ['name'], label: 'Name', kind: { as: 'line' } }, ...partFields]}
            />
            <button
              class="plain"
              disabled={isLocked}
              onClick={() => book.edit(`${name} removed`, [{ kind: 'remove', list: 'parts', name }])}
            >
              Remove {name}
            </button>
          </section>
        ))}
        <p>
          <button disabled={isLocked} onClick={addPart}>
            Add a part
          </button>
        </p>
      </Folded>
      <Folded title="Notes" note={record.notes === undefined ? 'nothing recorded' : 'recorded'}>
        <FieldInput field={notesField} />
      </Folded>
    </main>
  );
}

/** What was fitted, trial by trial; where each lamp sits is dragged on the unit's plan. */
function During(): JSX.Element {
  const record = useUnit();
  const [named, setNamed] = useState(record.chosen?.trial ?? record.trials.at(-1)?.name ?? '');
  const trial = record.trials.find(({ name }) => name === named) ?? record.trials.at(-1);
  if (!trial) return <p class="hint">No trial yet. Each one records its lamps, diffuser, shade and resistors.</p>;
  const window = record.windows.find(({ name }) => trial.windows?.includes(name) ?? true) ?? record.windows.at(0);
  return (
    <>
      <label class="field">
        Trial
        <select value={trial.name} onChange={(event) => setNamed(event.currentTarget.value)}>
          {record.trials.map(({ name }) => (
            <option key={name} value={name}>
              {name}
              {name === record.chosen?.trial ? ' (chosen)' : ''}
            </option>
          ))}
        </select>
      </label>
      <Fields of={ofTrial(trial.name)} fields={trialFields} />
      {window && (trial.lamps ?? []).length > 0 && <LampTable trial={trial} window={window} />}
    </>
  );
}
