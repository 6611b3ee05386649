import path from 'node:path';
import { namedAsInRecord, photoNamer } from '../../book/photo-names';
import { requestOfUnit, seriesOfUnit } from '../../book/unit-series';
import { compareSeries } from '../../compare/compare-series';
import { shownWindows, unreadTrials } from '../../compare/measured-series';
import { sweepsOf } from '../../compare/sweeps';
import type { ComparisonDocument } from '../../contract/comparison';
import type { UnitPhoto } from '../../contract/unit-record';
import { Book } from '../book/book';
import { readCompareOptions, type CompareSource } from './compare-options';
import { comparisonText } from './compare-text';
import { writeAllDifferences } from './difference-files';
import { exitCodeOfResult } from './exit-codes';
import { mapsText } from './maps-text';
import { assertFolder, measureInShell, openSeriesFile, tellFailures, writeAllMaps, type OpenedSeries } from './measure';
import { missingPhotos, missingText } from './missing-photos';
import { documentOf, namesOfFailed, rowsOf } from './readings-document';
import { jsonText } from './rounded';
import type { Shell } from './shell';

const readingsCommand = { series: 'evendial measure --series FILE', unit: 'evendial unit measure UNIT' };

interface OpenedSource extends OpenedSeries {
  /** Of a unit: they name the originals. */
  readonly photos: readonly UnitPhoto[];
}

/** The trials of a series file, or of a unit of the book. */
async function openSource(source: CompareSource, shell: Shell): Promise<OpenedSource> {
  if (source.kind === 'series') {
    return { ...(await openSeriesFile(path.resolve(shell.folder, source.file), source.file)), photos: [] };
  }
  const book = new Book(source.book);
  const record = await book.read(await book.idOf(source.called));
  const place = (file: string): string => path.join(book.unitFolder(record.id), file);
  return {
    series: seriesOfUnit(record),
    request: requestOfUnit(record, undefined, place),
    photos: record.photos,
  };
}

/** `evendial compare`: which trial is better, and what cannot be told apart. @returns the exit code @rule CL19, CL20, CL21 */
export async function runCompare(words: readonly string[], shell: Shell): Promise<number> {
  const options = readCompareOptions(words, shell);
  const mapsFolder = options.mapsFolder === null ? null : path.resolve(shell.folder, options.mapsFolder);
  if (mapsFolder !== null) await assertFolder(mapsFolder, options.mapsFolder ?? '');
  const { series, request: plain, photos } = await openSource(options.source, shell);
  const request = { ...plain, withMaps: mapsFolder !== null };
  const named = photoNamer(photos);
  const missing = missingText((await missingPhotos(request.jobs)).map(named), options.source.kind);
  if (missing !== null) shell.tell(`evendial: ${missing}`);
  const result = namedAsInRecord(await measureInShell(request, shell, named), photos);
  const paths = mapsFolder === null ? new Map() : await writeAllMaps(result, mapsFolder, shell.folder, shell);
  const differences = mapsFolder === null ? null : await writeAllDifferences(result, mapsFolder, shell);
  const windows = series.windows.map(({ name }) => name);
  const shown = shownWindows(result);
  const comparison = compareSeries(windows, shown, unreadTrials(result));
  const document: ComparisonDocument = { ...documentOf(request, result, paths), ...comparison };
  const rows = rowsOf(document, namesOfFailed(request, result));
  if (options.isJson) {
    await shell.print(jsonText(document));
    if (missing === null) tellFailures(rows, shell);
  } else {
    const sweeps = sweepsOf(series.trials ?? []);
    const command = readingsCommand[options.source.kind];
    await shell.print(comparisonText({ windows, shown, comparison, sweeps, rows, readingsCommand: command }));
    if (differences) await shell.print(`\n${mapsText(rows, options.mapsFolder ?? '')}${differences.text}`);
  }
  return exitCodeOfResult(result, options.strict);
}
