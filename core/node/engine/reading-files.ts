import '../decode/wasm-only';
import type { SavedFile } from '../../contract/bench';
import type { MappedWindow } from '../../contract/measure';
import { measurePhotos, type EnginePorts, type MeasureRun } from '../../engine';
import { csvText } from '../cli/csv';
import { documentOf, rowsOf } from '../cli/readings-document';
import { jsonText } from '../cli/rounded';
import { mapNames } from '../map-files/map-names';
import { writeMaps } from '../map-files/write-maps';
import type { EngineTasks } from './messages';
import { onlyReading } from './only-reading';

async function picturesOf(entry: MappedWindow, name: string): Promise<SavedFile[]> {
  const files: SavedFile[] = [];
  await writeMaps(entry, name, async (file, content) => {
    if (typeof content === 'string') return;
    // A copy: an encoder's buffer may lie in memory that cannot travel between threads.
    files.push({ name: file, mediaType: 'image/png', bytes: Uint8Array.from(content) });
  });
  return files;
}

/**
 * The reading of one window as files, with the bytes that the command line gives for the same request.
 *
 * @rule BE3
 */
export async function readingFiles(
  { request, what }: EngineTasks['files']['asks'],
  ports: EnginePorts,
  run: MeasureRun,
): Promise<SavedFile[]> {
  const result = await measurePhotos({ ...request, withMaps: true }, ports, run);
  const entry = onlyReading(result);
  const [name] = mapNames([entry.reading]);
  if (what === 'pictures') return picturesOf(entry, name);
  const document = documentOf(request, result, new Map());
  const [text, mediaType] =
    what === 'json' ? [jsonText(document), 'application/json'] : [csvText(rowsOf(document)), 'text/csv'];
  return [{ name: `${name}.readings.${what}`, mediaType, bytes: Uint8Array.from(Buffer.from(text, 'utf8')) }];
}
