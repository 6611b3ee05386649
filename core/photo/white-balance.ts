import type { CameraFacts } from '../contract/readings';

/** Whether the colours of two photos can be compared, and what says so. */
export interface WhiteBalanceMatch {
  readonly verdict: 'same' | 'differs' | 'unknown';
  /** A clause for a sentence, without a full stop. */
  readonly reason: string;
}

type Compared = Pick<CameraFacts, 'make' | 'model' | 'focalLengthMm' | 'whiteBalance'>;

/** Lenses write their focal length rounded; two settings of a zoom differ by more. @source our own choice */
const focalLengthTolerance = 0.01;

/**
 * Whether two photos share camera, lens setting and white balance, so that their colours compare without an anchor.
 *
 * EXIF tells only manual from automatic, not which preset: "same" means that nothing recorded differs. Two automatic
 * photos are "unknown", as the camera may have chosen alike or not. An absent focal length is not held against them.
 *
 * @returns the same verdict whichever photo comes first
 * @source EXIF 2.32 tag WhiteBalance; which facts must agree is our own choice
 * @rule LU9
 */
export function matchWhiteBalance(a: Compared, b: Compared): WhiteBalanceMatch {
  const differs = (reason: string): WhiteBalanceMatch => ({ verdict: 'differs', reason });
  const unknown = (reason: string): WhiteBalanceMatch => ({ verdict: 'unknown', reason });
  const bothTell = (key: 'make' | 'model'): boolean => a[key] !== undefined && b[key] !== undefined;
  for (const key of ['make', 'model'] as const) {
    if (bothTell(key) && a[key] !== b[key]) return differs('the photos are from different cameras');
  }
  if (a.focalLengthMm !== undefined && b.focalLengthMm !== undefined) {
    const longer = Math.max(a.focalLengthMm, b.focalLengthMm);
    const apart = Math.abs(a.focalLengthMm - b.focalLengthMm);
    if (apart > focalLengthTolerance * longer) return differs('the focal lengths differ');
  }
  const modes = [a.whiteBalance, b.whiteBalance];
  if (modes.includes('unknown')) return unknown('a photo does not tell its white balance');
  if (modes[0] !== modes[1]) return differs('one photo has manual white balance, the other automatic');
  if (modes[0] === 'auto') return unknown('the camera chose the white balance of each photo by itself');
  if (!bothTell('make') || !bothTell('model')) return unknown('a photo does not tell its camera');
  return { verdict: 'same', reason: 'same camera, white balance manual in both' };
}
