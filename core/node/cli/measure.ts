import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import type { MappedWindow, MeasuredWindow, MeasureRequest, MeasureResult } from '../../contract/measure';
import type { MapPaths } from '../../contract/readings';
import { readSeries, requestOfSeries, type SeriesFile } from '../../contract/series';
import { mapNames } from '../map-files/map-names';
import { writeMaps } from '../map-files/write-maps';
import { usageError } from './arguments';
import { csvText, type ReadingRow } from './csv';
import { exitCodeOfResult } from './exit-codes';
import { printable } from '../../display/figure-text';
import { assertJson } from './json-syntax';
import { mapsText } from './maps-text';
import { readMeasureOptions, type MeasureOptions } from './measure-options';
import { documentOf, namesOfFailed, rowsOf, type PathsOfWindow } from './readings-document';
import { jsonText } from './rounded';
import { saveResponse, withStoredResponse } from './response-file';
import type { Shell } from './shell';
import { systemWords } from '../system-words';
import { tableText } from './table';
import { writeWholeFile } from './whole-files';

/** A series as it is described, and what is to be measured of it. */
export interface OpenedSeries {
  readonly series: SeriesFile;
  readonly request: MeasureRequest;
}

/** Reads a series file from disk: as it is written, and what is to be measured; its photos belong to its own folder. */
export async function openSeriesFile(file: string, called: string): Promise<OpenedSeries> {
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch (error) {
    const message = `the series file ${called} cannot be read: ${systemWords(error)}`;
    throw usageError(message, 'Check its name and the folder.', 'SERIES_NOT_READ');
  }
  assertJson(text, called);
  const series = readSeries(text, called);
  const place = (named: string): string => path.resolve(path.dirname(file), named);
  const request = requestOfSeries(series, place);
  const { response } = series;
  return {
    series,
    request: response === undefined ? request : await withStoredResponse(request, place(response), response),
  };
}

async function requestOf(source: MeasureOptions['source'], shell: Shell): Promise<MeasureRequest> {
  if (source.kind === 'photos') return source.request;
  const { request } = await openSeriesFile(path.resolve(shell.folder, source.file), source.file);
  return {
    ...request,
    room: source.room ?? request.room,
    viewingDistanceMm: source.viewingDistanceMm ?? request.viewingDistanceMm,
  };
}

/** Measures, and says how far it is. @param named  what a photo is called there, by its file; left out: as that */
export async function measureInShell(
  request: MeasureRequest,
  shell: Shell,
  named = (file: string): string => file,
): Promise<MeasureResult> {
  try {
    return await shell.runTask('measure', request, {
      signal: shell.signal,
      onProgress: ({ file, photosDone, photosInAll }) =>
        shell.progress(`${photosDone} of ${photosInAll} photos measured: ${printable(named(file))}`),
    });
  } finally {
    shell.progress('');
  }
}

/** The windows of a result whose maps were asked for. */
export function mappedWindows(result: MeasureResult): (MeasuredWindow & MappedWindow)[] {
  return result.windows.filter(
    (entry): entry is MeasuredWindow & MappedWindow => 'reading' in entry && entry.maps !== null,
  );
}

/**
 * Writes maps and pictures of every measured window into a folder.
 *
 * @returns their paths relative to `documentFolder`, with forward slashes
 */
export async function writeAllMaps(
  result: MeasureResult,
  folder: string,
  documentFolder: string,
  shell: Shell,
): Promise<PathsOfWindow> {
  const measured = mappedWindows(result);
  const names = mapNames(measured.map(({ reading }) => reading));
  const paths = new Map<MeasuredWindow, MapPaths>();
  for (const [i, entry] of measured.entries()) {
    shell.progress(`maps ${i + 1} of ${measured.length}`);
    const write = (name: string, content: string | Uint8Array): Promise<void> =>
      writeWholeFile(path.join(folder, name), content, shell.signal);
    const files = await writeMaps(entry, names[i], write);
    const relative = (name: string): string =>
      path.relative(documentFolder, path.join(folder, name)).split(path.sep).join('/');
    paths.set(entry, {
      glowLuminance: relative(files.glowLuminance),
      chromaticity: relative(files.chromaticity),
      printMask: relative(files.printMask),
    });
  }
  shell.progress('');
  return paths;
}

/** Stops when maps are to go where no folder can be. */
export async function assertFolder(folder: string, called: string): Promise<void> {
  const facts = await stat(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw usageError(`--maps ${called} cannot be used: ${systemWords(error)}`, 'Name a folder.');
  });
  if (facts && !facts.isDirectory()) throw usageError(`--maps ${called} is not a folder`, 'Name a folder.');
}

/** Beside JSON and CSV, a person reads what went wrong on standard error; the table says it itself. */
export function tellFailures(rows: readonly ReadingRow[], shell: Shell): void {
  for (const { entry, failedAs } of rows) {
    if (!('error' in entry)) continue;
    const name = failedAs === undefined ? '' : `${failedAs}: `;
    shell.tell(`${printable(`${name}${entry.file}: ${entry.error.message}`)}\n  ${entry.error.remedy}`);
  }
}

/** `evendial measure`. @returns the exit code @rule CL4, CL11, CL14 */
export async function runMeasure(words: readonly string[], shell: Shell): Promise<number> {
  const options = readMeasureOptions(words, (file) => path.resolve(shell.folder, file));
  const mapsFolder = options.mapsFolder === null ? null : path.resolve(shell.folder, options.mapsFolder);
  if (mapsFolder !== null) await assertFolder(mapsFolder, options.mapsFolder ?? '');
  const plain = await requestOf(options.source, shell);
  const { response } = options;
  const asked =
    response === null ? plain : await withStoredResponse(plain, path.resolve(shell.folder, response), response);
  const request = { ...asked, withMaps: mapsFolder !== null };
  const result = await measureInShell(request, shell);
  const paths = mapsFolder === null ? new Map() : await writeAllMaps(result, mapsFolder, shell.folder, shell);
  const document = documentOf(request, result, paths);
  const rows = rowsOf(document, namesOfFailed(request, result));
  const text = {
    json: () => jsonText(document),
    csv: () => csvText(rows),
    table: () => tableText(rows),
  }[options.output]();
  await shell.print(text);
  if (options.output !== 'table') tellFailures(rows, shell);
  if (options.saveResponse !== null) await saveResponse(result, options.saveResponse, shell);
  if (options.mapsFolder !== null && options.output === 'table') {
    await shell.print(`\n${mapsText(rows, options.mapsFolder)}`);
  }
  return exitCodeOfResult(result, options.strict);
}
