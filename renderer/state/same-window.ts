import type { CameraFacts, Reading } from '../../core/contract/readings';

/** Sides that agree within a fiftieth are those of one window. */
export function showSameWindow(one: Reading, other: Reading): boolean {
  const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= 0.02 * Math.max(a, b);
  return (
    one.outline.kind === other.outline.kind &&
    isNear(one.outline.widthMm, other.outline.widthMm) &&
    isNear(one.outline.heightMm, other.outline.heightMm)
  );
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
