import type { RankedFigure } from '../contract/comparison';
import type { ComparedWindow } from './compared-window';
import { exposureDifferenceEv, likeExposureEv, sharedError } from './like-photos';

/** What would make the plus-minus of a difference smaller, the cheapest to do first. */
export const sharpenings = ['darkRoom', 'sameExposure', 'sameView', 'whiteBalance', 'curve'] as const;
export type Sharpening = (typeof sharpenings)[number];

function everyTwo(
  windows: readonly ComparedWindow[],
  holds: (a: ComparedWindow, b: ComparedWindow) => boolean,
): boolean {
  return windows.every((a, i) => windows.slice(i + 1).every((b) => holds(a, b)));
}

function haveLikeExposures(a: ComparedWindow, b: ComparedWindow): boolean {
  const ev = exposureDifferenceEv(a.reading.photos[0], b.reading.photos[0]);
  return ev !== null && Math.abs(ev) <= likeExposureEv;
}

/**
 * What would help to tell trials apart that one figure leaves together.
 *
 * @param windows two or more of one window
 * @returns empty when the photos are as good as they get: then the trials are too much alike
 * @source our own choice, after the parts of the plus-minus
 * @rule PR9
 */
export function sharpeningsOf(figure: RankedFigure, windows: readonly ComparedWindow[]): Sharpening[] {
  const bases = windows.map(({ facts }) => facts.basis);
  const isExposedAlike = everyTwo(windows, haveLikeExposures);
  const helps: Readonly<Record<Sharpening, boolean>> = {
    darkRoom: bases.some(({ ambientShare, room }) => ambientShare === null && room !== 'dark'),
    sameExposure: !isExposedAlike,
    sameView: isExposedAlike && !everyTwo(windows, (a, b) => sharedError(a.reading, b.reading) > 0),
    whiteBalance: figure === 'colour' && bases.some(({ whiteBalance }) => whiteBalance !== 'manual'),
    curve: figure !== 'colour' && bases.some(({ response }) => response === 'unknown'),
  };
  return sharpenings.filter((one) => helps[one]);
}
