import { createHash } from 'node:crypto';
import path from 'node:path';
import { AppError } from '../../base/errors';
import type { Corners } from '../../base/points';
import { originalPath } from '../../book/unit-series';
import type { ScreenPixels } from '../../contract/bench';
import type { BookVerbs } from '../../contract/book-verbs';
import { packValue, unpackValue } from '../../contract/packed';
import type { UnitPhoto, UnitRecord, UnitWindow } from '../../contract/unit-record';
import type { Book } from '../book/book';
import { readDerived, writeDerived } from '../book/derived';
import type { CallRun } from './calls';
import { referenceOf, showsWindow } from './laying';

/** As large as a card of the list is on a screen of twice the usual density. */
const mostSidePx = 320;

interface Motif {
  readonly photo: UnitPhoto;
  /** null: the unit has no window yet. */
  readonly window: UnitWindow | null;
}

const lastOfTrial = (record: UnitRecord, trial: string | undefined, window: string): UnitPhoto | undefined =>
  record.photos.filter((photo) => photo.role === 'trial' && photo.trial === trial && showsWindow(photo, window)).at(-1);

/** The photo that stands for a window: of the chosen trial, else the reference, else of the last trial that has one. */
function photoOfWindow(record: UnitRecord, window: string): UnitPhoto | undefined {
  const trials = record.trials.map(({ name }) => lastOfTrial(record, name, window)).filter((photo) => photo);
  return lastOfTrial(record, record.chosen?.trial, window) ?? referenceOf(record, window) ?? trials.at(-1);
}

function motifOf(record: UnitRecord, sha256: string | null, named: string | null): Motif | null {
  const photo = sha256 === null ? undefined : record.photos.find((one) => one.sha256 === sha256);
  if (sha256 !== null && !photo) return null;
  const windows = record.windows.filter(({ name }) => named === null || name === named);
  const window = (photo ? windows.find(({ name }) => showsWindow(photo, name)) : undefined) ?? windows.at(0) ?? null;
  if (photo) return { photo, window };
  const standing = window ? photoOfWindow(record, window.name) : record.photos.at(-1);
  return standing ? { photo: standing, window } : null;
}

/** Changes with everything that the picture is made from. */
function nameOf({ photo, window }: Motif): string {
  const made = [photo.sha256, photo.encoding, window && [window.widthMm, window.heightMm], cornersOf(photo, window)];
  const digest = createHash('sha256').update(JSON.stringify(made)).digest('hex');
  return `thumbnail-${digest.slice(0, 24)}.packed`;
}

function cornersOf({ corners }: UnitPhoto, window: UnitWindow | null): Corners | null {
  const four = window && corners?.[window.name];
  return four ? (four.map(([column, row]) => ({ column, row })) as unknown as Corners) : null;
}

/** The picture as it was kept; null when there is none, or none that is whole. */
async function kept(book: Book, unit: string, name: string): Promise<ScreenPixels | null> {
  const bytes = await readDerived(book, unit, name);
  if (bytes === null) return null;
  try {
    return unpackValue(Uint8Array.from(bytes)) as ScreenPixels;
  } catch (error) {
    if (error instanceof RangeError || error instanceof SyntaxError) return null;
    throw error;
  }
}

/**
 * A small picture of a unit's window, seen straight on; made once and kept among what can be made again.
 *
 * @returns null: the unit has no photo of it
 * @throws AppError of kind photo
 * @rule BE20
 */
export async function unitThumbnail(
  book: Book,
  { unit, sha256, window: named }: BookVerbs['unitThumbnail']['asks'],
  { engine }: CallRun,
): Promise<ScreenPixels | null> {
  const motif = motifOf(await book.read(unit), sha256, named);
  if (motif === null) return null;
  const name = nameOf(motif);
  const before = await kept(book, unit, name);
  if (before) return before;
  const { photo, window } = motif;
  const file = path.join(book.unitFolder(unit), originalPath(photo));
  const encoding = photo.encoding ?? 'profile';
  const pixels = await engine('thumbnail', {
    photo: { file: photo.name, path: file, encoding, encodingStated: photo.encoding !== undefined, exposure: {} },
    window: window && { widthMm: window.widthMm, heightMm: window.heightMm, corners: cornersOf(photo, window) },
    mostSidePx,
  });
  await writeDerived(book, unit, name, packValue(pixels)).catch((error: unknown) => {
    // A book that cannot be written to can be looked at all the same.
    if (!(error instanceof AppError)) throw error;
  });
  return pixels;
}
