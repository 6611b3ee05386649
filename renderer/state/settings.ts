import type { SampleOffered } from '../../core/contract/bench';
import type { BenchState, ReadingSettings } from './bench-state';
import { photoOf } from './bench-state';

const firstSettings: ReadingSettings = {
  window: { cornersPx: null, sizeMm: null, shape: null, print: 'auto', leaveOut: [], paintedRed: [], paintedDark: [] },
  light: 'unknown',
  room: 'unknown',
  viewingDistanceMm: 500,
};

/**
 * Settings of a photo that has just been dropped. What belongs to the bench is taken over from the photo in view: the
 * room, the viewing distance and a size that the user gave, since an evening's photos show one window. What belongs to
 * one photo (corners, light, patches) is not.
 */
export function settingsOfNewPhoto(state: BenchState, sample: SampleOffered | null): ReadingSettings {
  if (sample) {
    const { light, room, sizeMm, shape = null } = sample;
    return { ...firstSettings, light, room, window: { ...firstSettings.window, sizeMm, shape } };
  }
  const inView = photoOf(state, state.selected);
  if (inView === null || inView.isSample) return firstSettings;
  const { room, viewingDistanceMm, window } = inView.settings;
  return { ...firstSettings, room, viewingDistanceMm, window: { ...firstSettings.window, sizeMm: window.sizeMm } };
}

/** Settings with a part of the window changed. */
export function withWindow(settings: ReadingSettings, change: Partial<ReadingSettings['window']>): ReadingSettings {
  return { ...settings, window: { ...settings.window, ...change } };
}
