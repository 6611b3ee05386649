import type { DrawnPoint } from './drawing';
import { sheetWidthMm } from './sheet-content';

/** Scales of a drawing, paper over window, the largest first. */
const scales = [5, 4, 3, 2.5, 2, 1.8, 1.6, 1.5, 1.4, 1.25, 1.1, 1, 0.8, 0.6, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1, 0.05];

/** Room for pictures between the labels of a vertical axis on both sides, mm. */
const mostWidthMm = 150;
const mostHeightMm = 92;
export const captionMm = 5.5;
export const rulerMm = 7.5;
/** Wide enough for the labels of a vertical axis. */
const gapMm = 11;

/** Where pictures of one window lie, all at one scale. */
export interface PictureLayout {
  /** Paper over window. */
  readonly scale: number;
  /** Of a picture on paper. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** The left top corner of each picture. */
  readonly places: readonly DrawnPoint[];
  /** Under one another; else side by side. */
  readonly isStacked: boolean;
  /** Of the whole, captions and rulers included. */
  readonly blockHeightMm: number;
}

function largestScale(widthMm: number, heightMm: number): number {
  return scales.find((scale) => scale * widthMm <= mostWidthMm && scale * heightMm <= mostHeightMm) ?? scales.at(-1)!;
}

/**
 * Lays out pictures of one window at one scale, the largest that fits: long windows under one another, others side by side.
 *
 * @param windowMm width and height of the window
 * @param count    1 or 2
 * @source our own choice
 * @rule RS3
 */
export function layOutPictures([wide, high]: readonly [number, number], count: number): PictureLayout {
  const stackedScale = largestScale(wide, high * count + 0.001);
  const besideScale = largestScale(wide * count + 0.001, high);
  const isStacked = count === 1 || stackedScale >= besideScale;
  const scale = isStacked ? stackedScale : besideScale;
  const [widthMm, heightMm] = [wide * scale, high * scale];
  const inAll = isStacked ? widthMm : widthMm * count + gapMm * (count - 1);
  const left = (sheetWidthMm - inAll) / 2;
  const places = Array.from({ length: count }, (_, i): DrawnPoint => {
    if (!isStacked) return [left + i * (widthMm + gapMm), captionMm];
    return [left, captionMm + i * (heightMm + captionMm + 2)];
  });
  const lastTop = places[count - 1][1];
  return { scale, widthMm, heightMm, places, isStacked, blockHeightMm: lastTop + heightMm + rulerMm };
}

/** `1.6 : 1`, or `1 : 2` where the drawing is smaller than the window. */
export function scaleText(scale: number): string {
  return scale >= 1 ? `${Number(scale.toPrecision(3))} : 1` : `1 : ${Number((1 / scale).toPrecision(3))}`;
}
