import path from 'node:path';
import { putReadings } from '../../../book/edits';
import { readingsToKeep } from '../../../book/measured-readings';
import { namedAsInRecord, photoNamer } from '../../../book/photo-names';
import { requestOfUnit } from '../../../book/unit-series';
import type { UnitRecord } from '../../../contract/unit-record';
import { writeDerived } from '../../book/derived';
import { usageError } from '../arguments';
import { csvText } from '../csv';
import { exitCodeOfResult } from '../exit-codes';
import { assertFolder, measureInShell, tellFailures, writeAllMaps } from '../measure';
import { documentOf, namesOfFailed, rowsOf } from '../readings-document';
import { jsonText } from '../rounded';
import { versionOf } from '../shell';
import { tableText } from '../table';
import type { UnitCall, UnitCommand } from './unit-command';

/** Readings of trials and windows that are (still) there; another process may have renamed one meanwhile. */
function withReadings(unit: UnitRecord, readings: UnitRecord['readings']): UnitRecord {
  const fitting = readings.filter(
    ({ trial, window }) =>
      (trial === null || unit.trials.some(({ name }) => name === trial)) &&
      unit.windows.some(({ name }) => name === window),
  );
  return fitting.length === 0 ? unit : putReadings(unit, fitting);
}

async function runMeasureUnit({ book, given, words, isJson, shell }: UnitCall): Promise<number> {
  const [called, trial] = words;
  if (isJson && given.flags.has('csv')) throw usageError('--json and --csv together', 'Give one of them.');
  const maps = given.values.get('maps');
  const mapsFolder = maps === undefined ? null : path.resolve(shell.folder, maps);
  if (mapsFolder !== null) await assertFolder(mapsFolder, maps ?? '');
  const id = await book.idOf(called);
  const folder = book.unitFolder(id);
  const record = await book.read(id);
  const plain = requestOfUnit(record, trial, (file) => path.join(folder, file));
  const request = { ...plain, withMaps: mapsFolder !== null };
  const measured = await measureInShell(request, shell, photoNamer(record.photos));
  const result = namedAsInRecord(measured, record.photos);
  const paths = mapsFolder === null ? new Map() : await writeAllMaps(result, mapsFolder, shell.folder, shell);
  const document = documentOf(request, result, paths);
  const readings = readingsToKeep(result, book.now(), `evendial ${versionOf(shell.home)}`);
  await book.edit(id, (unit) => withReadings(unit, readings));
  await writeDerived(book, id, trial === undefined ? 'readings.json' : 'last-trial-readings.json', jsonText(document));
  const rows = rowsOf(document, namesOfFailed(request, result));
  const text = isJson ? jsonText(document) : given.flags.has('csv') ? csvText(rows) : tableText(rows);
  await shell.print(text);
  if (isJson || given.flags.has('csv')) tellFailures(rows, shell);
  return exitCodeOfResult(result, given.flags.has('strict'));
}

/** @rule BK24 */
export const measureCommands: Readonly<Record<string, UnitCommand>> = {
  measure: {
    usage: 'measure UNIT [TRIAL] [--maps DIR] [--json|--csv] [--strict]',
    values: ['maps'],
    flags: ['csv', 'strict'],
    words: [1, 2],
    run: runMeasureUnit,
  },
};
