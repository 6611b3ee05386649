import { compareSeries } from '../../core/compare/compare-series';
import { figure } from '../../core/contract/figure';
import type { MappedWindow, MeasuredWindow } from '../../core/contract/measure';
import type { UnitRecord } from '../../core/contract/unit-record';
import type { SheetSource } from '../../core/sheet/make-content';
import { madeUpMaps, madeUpReading, madeUpWindow } from '../unit/cli/made-up';
import { larkfieldUnit } from './unit-records';

/** Drawn once: no test changes them. */
const maps = { scale: madeUpMaps(92, 18), meter: madeUpMaps(38, 38, true) };

type Mapped = MeasuredWindow & MappedWindow;

/** A small window of the unit, measured, with numbers of our own. */
function measuredWindow(role: 'reference' | 'trial', name: string, window: string, score: number): Mapped {
  const isMeter = window === 'meter';
  const { evenness, outline, spots } = madeUpReading();
  const [widthMm, heightMm] = isMeter ? [38, 38] : [92, 18];
  const one = madeUpWindow(
    {
      name,
      window,
      outline: { ...outline, widthMm, heightMm, kind: isMeter ? 'ellipse' : 'rectangle' },
      evenness: { ...evenness, score: figure(score, 5.2) },
      spots: role === 'trial' ? spots.filter(({ xMm }) => xMm < widthMm) : [],
    },
    isMeter ? maps.meter : maps.scale,
  );
  return { ...one, role };
}

/** What a sheet of the invented tuner is made from; every window measured, but nothing that takes long. */
export function larkfieldSource(changes: Partial<UnitRecord> = {}): SheetSource {
  const record = { ...larkfieldUnit(), ...changes };
  const windows = record.windows.map(({ name }) => name);
  const measured = windows.flatMap((window) => [
    measuredWindow('reference', 'reference', window, 88),
    ...record.trials.map(({ name }, i) => measuredWindow('trial', name, window, 61 + 7 * (i % 5))),
  ]);
  const shown = measured.map((one) => ({ ...one, witness: null }));
  return { record, measured, failed: [], comparison: compareSeries(windows, shown, []), program: 'Evendial 0.1.0' };
}
