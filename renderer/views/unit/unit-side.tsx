import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { UnitRecord } from '../../../core/contract/unit-record';
import { useBook, useUnit } from '../book-context';
import { Caution } from '../shooting-guide';
import { NewUnit } from '../units/new-unit';
import { ExportDialog } from './export-unit';

const said = (...parts: readonly (string | number | undefined)[]): string =>
  parts.filter((part) => part !== undefined && part !== '').join(', ');
const withUnit = (value: number | undefined, unit: string): string => (value === undefined ? '' : `${value} ${unit}`);

/** What a restorer asks first about a unit, from what was recorded. */
function shortFacts(record: UnitRecord): readonly (readonly [string, string])[] {
  const { lamp, supply } = record.before ?? {};
  const fitted = record.trials.find(({ name }) => name === record.chosen?.trial);
  const types = [...new Set((fitted?.lamps ?? []).map(({ type }) => type).filter((type) => type !== undefined))];
  const count = lamp?.countOnSupply;
  return [
    [
      'Lamps were',
      said(
        count === undefined ? '' : `${count} on the supply`,
        lamp?.base,
        withUnit(lamp?.ratedV, 'V'),
        withUnit(lamp?.ratedMa, 'mA'),
      ),
    ],
    [
      'Supply',
      said(
        supply?.kind,
        supply?.voltsWithLamp === undefined ? '' : `${supply.voltsWithLamp} V with the lamp`,
        supply?.voltsWithoutLamp === undefined ? '' : `${supply.voltsWithoutLamp} V without`,
      ),
    ],
    ['Now chosen', said(record.chosen?.trial)],
    ['Lamps', fitted?.lamps?.length ? `${fitted.lamps.length} × ${types.join(' and ') || 'lamp'}` : ''],
    ['Resistors', said(...(fitted?.strings ?? []).map(({ resistorOhm }) => withUnit(resistorOhm, 'Ω')))],
    ['Why', said(record.chosen?.why)],
  ];
}

/** The unit as a whole, with the ways on. */
export function UnitSide(): JSX.Element {
  const { places } = useBook();
  const record = useUnit();
  const [asks, setAsks] = useState<'like' | 'export' | null>(null);
  const numbers = said(record.serialNumber && `no. ${record.serialNumber}`, record.owner);
  return (
    <>
      <div>
        <h1>{record.name}</h1>
        {numbers !== '' && <p class="quiet">{numbers}</p>}
      </div>
      <dl class="facts-list">
        {shortFacts(record).map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd class={value === '' ? 'open' : ''}>{value || 'not recorded'}</dd>
          </div>
        ))}
      </dl>
      {record.notes !== undefined && <p class="owner-notes">{record.notes}</p>}
      <p class="row">
        <button onClick={() => places.goTo({ at: 'unit', unit: record.id, view: 'facts' })}>Change facts</button>
        <button onClick={() => setAsks('like')}>New unit like it</button>
        <button onClick={() => setAsks('export')}>Save as one file</button>
      </p>
      <Caution />
      <div class="last">
        <button class="go" onClick={() => places.goTo({ at: 'unit', unit: record.id, view: 'sheet' })}>
          Record sheet <kbd>4</kbd>
        </button>
      </div>
      <NewUnit isOpen={asks === 'like'} like={record.id} onClose={() => setAsks(null)} />
      <ExportDialog isOpen={asks === 'export'} onClose={() => setAsks(null)} />
    </>
  );
}
