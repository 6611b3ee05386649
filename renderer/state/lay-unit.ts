import type { LaidPhoto } from '../../core/contract/book-verbs';
import type { UnitRecord, UnitWindow } from '../../core/contract/unit-record';
import type { Bench } from './bench';
import type { ReadingSettings } from './bench-state';
import type { Book } from './book';
import { askedWord, type Filings } from './filings';
import { firstSettings, withWindow } from './settings';

/**
 * Lays the photos of a window on the bench, as the record says that they are read.
 *
 * @returns null when that was refused
 */
export async function layUnit(
  bench: Bench,
  book: Book,
  filings: Filings,
  unit: UnitRecord,
  window: string,
): Promise<readonly LaidPhoto[] | null> {
  const laid = await book.lay(unit.id, window);
  if (!laid) return null;
  filings.put(
    laid.map(({ photo, role, trial, asked }) => [
      photo.id,
      { unit: unit.id, unitName: unit.name, window, role, trial, asked: askedWord(asked) },
    ]),
  );
  bench.layOut(laid);
  return laid;
}

/**
 * What the first photo of a window begins with: what the record says of it, and nothing of another unit whose photos may
 * lie on the bench. A shape that is drawn on a photo is left to the search.
 */
export function settingsOfFirstPhoto({ photography }: UnitRecord, window: UnitWindow | undefined): ReadingSettings {
  const { room = firstSettings.room, viewingDistanceMm = firstSettings.viewingDistanceMm } = photography ?? {};
  const scene = { ...firstSettings, room, viewingDistanceMm };
  if (!window) return scene;
  const { widthMm, heightMm, outline, print } = window;
  const isDrawn = outline?.kind === 'polygon' || (outline?.kind === 'ellipse' && outline.cutMm !== undefined);
  const shape = isDrawn ? null : ({ kind: outline?.kind === 'ellipse' ? 'ellipse' : 'rectangle' } as const);
  return withWindow(scene, { sizeMm: { widthMm, heightMm }, shape, print: print ?? 'auto' });
}

/** What the next photo of a window begins with: its size and shape, the room, and the photos that its trials are read with. */
export function settingsOfNextPhoto(laid: readonly LaidPhoto[]): ReadingSettings | null {
  const newest = laid.filter(({ role }) => role === 'trial').at(-1) ?? laid.find(({ role }) => role === 'reference');
  if (!newest) return null;
  const { room, viewingDistanceMm, helpers, reference } = newest.asked;
  const { sizeMm, shape, print } = newest.asked.window;
  const filament = laid.find(({ role }) => role === 'reference')?.photo.id ?? reference?.photo ?? null;
  return {
    ...firstSettings,
    room,
    viewingDistanceMm,
    helpers,
    reference: filament,
    window: { ...firstSettings.window, sizeMm, shape, print },
  };
}
