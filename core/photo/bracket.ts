import { assertSameShape, createPlane, type Plane } from '../base/plane';

/** One photo of an exposure series, one channel of it. */
export interface BracketFrame {
  /** Code values scaled to 0..255, as the file holds them. */
  readonly code255: Plane;
  /** The same cells in linear light. */
  readonly light: Plane;
  /** Exposure relative to the other frames, above 0: t S / N^2 in any unit. */
  readonly relExposure: number;
}

/** Codes outside say too little: noise and black below, the sensor's or curve's end above. */
const lowestCode = 4;
const highestCode = 251;

/**
 * How much a code value is trusted: min(z, 255 - z), 0 outside 4..251 and for NaN.
 *
 * @param code255  0..255
 * @returns 0..127.5
 * @source Debevec & Malik, Recovering high dynamic range radiance maps, 1997; limits: our own choice
 * @rule LU8
 */
export function hatWeight(code255: number): number {
  return code255 >= lowestCode && code255 <= highestCode ? Math.min(code255, 255 - code255) : 0;
}

/**
 * One light for every cell of an exposure series: sum(w light / exposure) / sum(w), w = hat weight of the code.
 *
 * @param frames  one or more, registered, on one grid; not altered
 * @returns light at relative exposure 1; NaN where no frame has a trusted code
 * @throws RangeError for no frames, other shapes, or an exposure not above 0
 * @source Debevec & Malik 1997, weighted mean (in linear light)
 * @rule LU8
 */
export function mergeBracket(frames: readonly BracketFrame[]): Plane {
  if (frames.length === 0) throw new RangeError('no photos to merge');
  const { width, height } = frames[0].light;
  const sums = new Float64Array(width * height);
  const weights = new Float64Array(width * height);
  for (const { code255, light, relExposure } of frames) {
    assertSameShape(frames[0].light, light);
    assertSameShape(light, code255);
    if (!(relExposure > 0)) throw new RangeError(`not an exposure: ${relExposure}`);
    for (let i = 0; i < sums.length; i++) {
      const weight = Number.isFinite(light.values[i]) ? hatWeight(code255.values[i]) : 0;
      if (weight === 0) continue;
      sums[i] += (weight * light.values[i]) / relExposure;
      weights[i] += weight;
    }
  }
  const merged = createPlane(width, height, NaN);
  for (let i = 0; i < sums.length; i++) if (weights[i] > 0) merged.values[i] = sums[i] / weights[i];
  return merged;
}
