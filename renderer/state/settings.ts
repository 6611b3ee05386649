import type { WindowPoint } from '../../core/base/points';
import type { HelpersAsked, PhotoId, SampleOffered } from '../../core/contract/bench';
import type { OutlineShape } from '../../core/contract/outline';
import type { Reading } from '../../core/contract/readings';
import type { BenchState, PhotoOnBench, ReadingSettings } from './bench-state';
import { photoOf } from './bench-state';
import type { SizeMm } from '../canvas/viewport';

export const noHelpers: HelpersAsked = { lampOff: null, flatField: null, printPhoto: null };

export const firstSettings: ReadingSettings = {
  window: { cornersPx: null, sizeMm: null, shape: null, print: 'auto', leaveOut: [], paintedRed: [], paintedDark: [] },
  light: 'unknown',
  room: 'unknown',
  viewingDistanceMm: 500,
  helpers: noHelpers,
  reference: null,
  sizeFrom: null,
};

/**
 * Settings of a photo that has just been dropped. What belongs to the bench is taken over from the photo in view: the
 * room, the viewing distance, a size that the user gave and the photos that belong to it, since an evening's photos show one
 * window. What belongs to one photo (corners, light, patches) is not.
 */
export function settingsOfNewPhoto(state: BenchState, sample: SampleOffered | null): ReadingSettings {
  if (sample) {
    const { light, room, sizeMm, shape = null } = sample;
    return { ...firstSettings, light, room, window: { ...firstSettings.window, sizeMm, shape } };
  }
  const inView = photoOf(state, state.selected);
  if (inView === null || inView.isSample) return firstSettings;
  const { room, viewingDistanceMm, window, helpers, reference } = inView.settings;
  const { sizeMm } = window;
  return {
    ...firstSettings,
    room,
    viewingDistanceMm,
    helpers,
    reference,
    window: { ...firstSettings.window, sizeMm },
    sizeFrom: sizeSource(inView),
  };
}

/** The photo whose window's size another one takes over from this one; null: it has none. @rule SC40 */
export const sizeSource = ({ id, settings }: Pick<PhotoOnBench, 'id' | 'settings'>): PhotoId | null =>
  settings.window.sizeMm === null ? null : (settings.sizeFrom ?? id);

/** A search and a tilt err by less; another window differs by more. */
const otherShapeFrom = 0.25;

/** Whether the window that was found in a photo has another shape than the size that the photo took over. @rule SC39 */
export const isOfOtherShape = ({ gates, outline }: Reading): boolean =>
  outline.cornersFrom === 'search' &&
  gates.some(({ code, value }) => code === 'ASPECT_DIFFERS' && value !== null && value > otherShapeFrom);

/** Settings of a photo that shows another window than the one whose size and photos it took over. @rule SC39, SC40 */
export function settingsOfOtherWindow(settings: ReadingSettings): ReadingSettings {
  return withWindow({ ...settings, helpers: noHelpers, reference: null, sizeFrom: null }, { sizeMm: null });
}

/** Settings without a photo that is no longer there; the same object when they did not name it. */
export function withoutPhoto(settings: ReadingSettings, photo: PhotoId): ReadingSettings {
  const { helpers, reference } = settings;
  const names = Object.values(helpers) as (PhotoId | null)[];
  if (reference !== photo && !names.includes(photo)) return settings;
  const left = (id: PhotoId | null): PhotoId | null => (id === photo ? null : id);
  const { lampOff, flatField, printPhoto } = helpers;
  return {
    ...settings,
    helpers: { lampOff: left(lampOff), flatField: left(flatField), printPhoto: left(printPhoto) },
    reference: left(reference),
  };
}

/** Settings with a part of the window changed. */
export function withWindow(settings: ReadingSettings, change: Partial<ReadingSettings['window']>): ReadingSettings {
  return { ...settings, window: { ...settings.window, ...change } };
}

type Drawn = readonly WindowPoint[];

/**
 * Settings with the window's size given, or given anew. What was drawn on the window - a covered part, a polygon, patches -
 * was drawn on its picture, in the millimetres of the size that held until now: it stays where it is in the picture.
 *
 * @param until the size that held until now, stated or assumed, mm
 * @param from the photo that was measured by caliper, where that is another one
 */
export function withSize(
  given: ReadingSettings,
  sizeMm: SizeMm,
  until: SizeMm,
  from: PhotoId | null = null,
): ReadingSettings {
  const settings = { ...given, sizeFrom: from };
  const [across, down] = [sizeMm.widthMm / until.widthMm, sizeMm.heightMm / until.heightMm];
  if (across === 1 && down === 1) return withWindow(settings, { sizeMm });
  const kept = (drawn: Drawn): Drawn => drawn.map(({ xMm, yMm }) => ({ xMm: across * xMm, yMm: down * yMm }));
  const { shape, leaveOut, paintedRed, paintedDark } = settings.window;
  return withWindow(settings, {
    sizeMm,
    shape: shape && keptShape(shape, kept),
    leaveOut: leaveOut.map(kept),
    paintedRed: paintedRed.map(kept),
    paintedDark: paintedDark.map(kept),
  });
}

function keptShape(shape: OutlineShape, kept: (drawn: Drawn) => Drawn): OutlineShape {
  if (shape.kind === 'polygon') return { ...shape, pointsMm: kept(shape.pointsMm) };
  return shape.kind === 'ellipse' && shape.cutMm ? { ...shape, cutMm: kept(shape.cutMm) } : shape;
}

/** Settings of a photo that was named as the filament reference: so lit, where the user has not said by what. */
export function litByFilament(settings: ReadingSettings): ReadingSettings {
  return settings.light === 'unknown' ? { ...settings, light: 'filament' } : settings;
}
