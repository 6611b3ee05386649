import { exposureText } from '../../../core/display/exposure-text';
import type { JSX } from 'preact';
import type { UnitPhoto, UnitWindow } from '../../../core/contract/unit-record';
import { useBook, useUnit } from '../book-context';
import { Fields, FieldInput } from '../record/field-input';
import { ofWindow } from '../record/field-path';
import { windowFields } from '../record/fields';
import { lightWords, roleWords } from '../words';
import { capital } from './cards';
import { ReadingWords } from './reading-words';
import { readingOf } from './unit-facts';

const nameField = { path: ['name'], label: 'Name', kind: { as: 'line' } } as const;

/** A window of the unit. */
export function WindowSide({ window }: { readonly window: UnitWindow }): JSX.Element {
  const { book } = useBook();
  const of = ofWindow(window.name);
  return (
    <>
      <h1>{window.name}</h1>
      <FieldInput of={of} field={nameField} />
      <Fields of={of} fields={windowFields} />
      <p class="hint">Outline and patches left out are taken over from the photos that are filed.</p>
      <p class="row">
        <button
          disabled={book.state.value.readOnly !== null}
          onClick={() =>
            book.edit(`window ${window.name} removed`, [{ kind: 'remove', list: 'windows', name: window.name }])
          }
        >
          Remove this window
        </button>
      </p>
    </>
  );
}

/** The reference, or a photo that others are read with. */
export function PhotoSide({ photo, window }: { readonly photo: UnitPhoto; readonly window: string }): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const { sha256, role, trial = null } = photo;
  const exposure = [
    photo.exposureS === undefined ? '' : exposureText(photo.exposureS),
    photo.fNumber === undefined ? '' : `f/${photo.fNumber}`,
    photo.iso === undefined ? '' : `ISO ${photo.iso}`,
  ].filter((part) => part !== '');
  const facts: readonly (readonly [string, string])[] = [
    ['File', photo.name],
    ['Size', `${(photo.bytes / 2 ** 20).toFixed(1)} MiB, kept byte for byte`],
    ['Light', photo.light === undefined ? 'not recorded' : lightWords[photo.light]],
    ...(exposure.length > 0 ? [['Stated', exposure.join(', ')] as const] : []),
    ...(trial === null ? [] : [['Only for', trial] as const]),
    ['Checksum', sha256.slice(0, 12)],
  ];
  return (
    <>
      <h1>{capital(roleWords[role])}</h1>
      {role === 'reference' && <ReadingWords reading={readingOf(record, window, null)} />}
      <dl class="facts-list">
        {facts.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {photo.notes !== undefined && <p>{photo.notes}</p>}
      <p class="row">
        <button
          disabled={book.state.value.readOnly !== null}
          onClick={() =>
            book.edit(`${roleWords[role]} ${photo.name} taken out`, [{ kind: 'remove-photo', sha256, role, trial }])
          }
        >
          Take it out of the unit
        </button>
      </p>
      <p class="hint">Its file stays with the unit, and undo brings it back.</p>
    </>
  );
}
