import type { HelpersAsked, PhotoId, SampleOffered } from '../../core/contract/bench';
import type { BenchState, ReadingSettings } from './bench-state';
import { photoOf } from './bench-state';

export const noHelpers: HelpersAsked = { lampOff: null, flatField: null, printPhoto: null };

export const firstSettings: ReadingSettings = {
  window: { cornersPx: null, sizeMm: null, shape: null, print: 'auto', leaveOut: [], paintedRed: [], paintedDark: [] },
  light: 'unknown',
  room: 'unknown',
  viewingDistanceMm: 500,
  helpers: noHelpers,
  reference: null,
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
  return { ...firstSettings, room, viewingDistanceMm, helpers, reference, window: { ...firstSettings.window, sizeMm } };
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

/** Settings of a photo that was named as the filament reference: so lit, where the user has not said by what. */
export function litByFilament(settings: ReadingSettings): ReadingSettings {
  return settings.light === 'unknown' ? { ...settings, light: 'filament' } : settings;
}
