import type { CameraFacts, Reading } from '../../core/contract/readings';
import type { PhotoOnBench } from './bench-state';

/** Sides that agree within a fiftieth are those of one window. */
export function showSameWindow(one: Reading, other: Reading): boolean {
  const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= 0.02 * Math.max(a, b);
  return (
    one.outline.kind === other.outline.kind &&
    isNear(one.outline.widthMm, other.outline.widthMm) &&
    isNear(one.outline.heightMm, other.outline.heightMm)
  );
}

/** Proportions of one window, as far apart as two searches of it may come out. */
const alikeProportions = 0.08;

/** Whether two outlines are of one kind and, as far apart as two searches may come out, of the same proportions. */
function areAlike(one: Reading['outline'], two: Reading['outline']): boolean {
  if (one.kind !== two.kind) return false;
  return Math.abs(Math.log(one.widthMm / one.heightMm / (two.widthMm / two.heightMm))) < alikeProportions;
}

/** Whether two photos may be of one window: alike, and where both sizes were given, of the same. */
export function mayBeOneWindow(one: Reading, two: Reading): boolean {
  const areGiven = one.outline.sizeKnown && two.outline.sizeKnown;
  return areGiven ? showSameWindow(one, two) : areAlike(one.outline, two.outline);
}

type SizeMm = PhotoOnBench['settings']['window']['sizeMm'];

const areEqual = (one: SizeMm, other: SizeMm): boolean =>
  one === other || (one?.widthMm === other?.widthMm && one?.heightMm === other?.heightMm);

/**
 * Whether a photo takes the size that another one is given: an evening's photos show one window. It must have had the same
 * size until now, or none as the other, and an outline of like proportions. Samples have their true sizes.
 */
export function mayShowSameWindow(other: PhotoOnBench, photo: PhotoOnBench): boolean {
  if (other.id === photo.id || other.isSample) return false;
  const hadNone = other.settings.window.sizeMm === null;
  if (!hadNone && !areEqual(other.settings.window.sizeMm, photo.settings.window.sizeMm)) return false;
  const [one, two] = [other.reading?.outline, photo.reading?.outline];
  return one !== undefined && two !== undefined && areAlike(one, two);
}

/** Light that the sensor was given, in EV up to a constant; null when the file does not tell all of it. */
export function exposureEv({ exposureS, fNumber, iso }: CameraFacts): number | null {
  const isTold = exposureS !== undefined && fNumber !== undefined && iso !== undefined;
  return isTold ? Math.log2((exposureS * iso) / fNumber ** 2) : null;
}

/** Whether two photos were exposed alike, within a third of an EV; where a file does not tell, nothing speaks against it. */
export function areExposedAlike(one: Reading, other: Reading): boolean {
  const [a, b] = [one, other].map(({ photos }) => exposureEv(photos[0].camera));
  return a === null || b === null || Math.abs(a - b) <= 1 / 3 + 1e-9;
}
