import '../decode/wasm-only';
import type { MeasuredWindow, MeasureResult } from '../../contract/measure';
import { measurePhotos, type EnginePorts, type MeasureRun } from '../../engine';
import { Book } from '../book/book';
import { shareUnit } from '../book/share-unit';
import { shownWindows } from '../../sheet/make-content';
import { sidesOf } from '../../sheet/shown-window';
import { sheetSource } from '../sheet/unit-sheet';
import type { EngineTasks } from './messages';

/** An engine is ended when its task is cancelled; nothing in it has to listen. */
const never = new AbortController().signal;

/** A unit's photos measured. Maps are large: those that no sheet draws stay behind. @rule BE23 */
export async function measuredForSheet(
  { record, request }: EngineTasks['unit']['asks'],
  ports: EnginePorts,
  run: MeasureRun,
): Promise<MeasureResult> {
  const { windows } = await measurePhotos(request, ports, run);
  const measured = windows.filter((entry): entry is MeasuredWindow => 'reading' in entry);
  const sides = shownWindows({ record, measured }).flatMap(sidesOf);
  const isDrawn = (entry: MeasuredWindow): boolean => sides.some((side) => side.measured === entry);
  return { windows: windows.map((one) => ('reading' in one && !isDrawn(one) ? { ...one, maps: null } : one)) };
}

/** The record sheet of a unit, with the bytes that the command line gives. @rule BE19 */
export async function sheetFile({
  record,
  result,
  form,
  isShared,
  program,
}: EngineTasks['sheet']['asks']): Promise<Uint8Array> {
  const { makeSheet } = await import('../sheet/make-sheet');
  // A copy: an encoder's buffer may lie in memory that cannot travel between threads.
  return Uint8Array.from(await makeSheet(sheetSource(record, result, isShared, program), form, never));
}

/** Writes a unit to be given away as an archive. @rule BK26 */
export function sharedArchive(
  { book, unit, file }: EngineTasks['share']['asks'],
  ports: EnginePorts,
  { onProgress }: MeasureRun,
): Promise<EngineTasks['share']['answers']> {
  return shareUnit(new Book(book), unit, file, {
    decoder: { decode: (place) => ports.decodePhoto(place, { regionPx: null }) },
    signal: never,
    onProgress: (photosDone, photosInAll) => onProgress?.({ file: unit, step: 'done', photosDone, photosInAll }),
  });
}
