import type { WindowPoint } from '../../../core/base/points';
import type { ReadingSettings, PhotoOnBench } from '../../state/bench-state';

/** A place in the photo, pixels. */
export type PhotoPlace = readonly [number, number];
export type FourCorners = readonly [PhotoPlace, PhotoPlace, PhotoPlace, PhotoPlace];

export const cornerNames = ['top left', 'top right', 'bottom right', 'bottom left'] as const;

/** What a click on the straightened window adds a point to. */
export const patchTools = ['leaveOut', 'paintedRed', 'paintedDark'] as const;
export type PatchTool = (typeof patchTools)[number];

/** The corners to begin with: as set, else as measured, else the middle of the photo. */
export function firstCorners({ settings, reading }: PhotoOnBench, widthPx: number, heightPx: number): FourCorners {
  const known = settings.window.cornersPx ?? reading?.outline.cornersPx;
  if (known?.length === 4) return known as unknown as FourCorners;
  const [left, right, top, bottom] = [0.25 * widthPx, 0.75 * widthPx, 0.4 * heightPx, 0.6 * heightPx];
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
}

export function withCorner(corners: FourCorners, index: number, place: PhotoPlace): FourCorners {
  return corners.map((corner, i) => (i === index ? place : corner)) as unknown as FourCorners;
}

/** A place kept inside the photo, to the quarter of a pixel. */
export function keptInPhoto([column, row]: PhotoPlace, widthPx: number, heightPx: number): PhotoPlace {
  const quarter = (value: number, most: number): number => Math.round(4 * Math.min(most, Math.max(0, value))) / 4;
  return [quarter(column, widthPx), quarter(row, heightPx)];
}

/** A place to the hundredth of a pixel, as it is shown and written: a corner that was found has more digits. */
export function roundedPlace([column, row]: PhotoPlace): PhotoPlace {
  return [Math.round(100 * column) / 100, Math.round(100 * row) / 100];
}

export function withPatch(settings: ReadingSettings, tool: PatchTool, points: readonly WindowPoint[]): ReadingSettings {
  const { window } = settings;
  return { ...settings, window: { ...window, [tool]: [...window[tool], points] } };
}

export function withoutPatch(settings: ReadingSettings, tool: PatchTool, index: number): ReadingSettings {
  const { window } = settings;
  return { ...settings, window: { ...window, [tool]: window[tool].filter((_, i) => i !== index) } };
}

/** A length in mm as the user typed it; null when it is none that a window can have. */
export function lengthOfText(text: string): number | null {
  const value = Number(text.trim().replace(',', '.'));
  return Number.isFinite(value) && value >= 2 && value <= 2000 ? value : null;
}
