import { blurMasked } from '../base/gaussian';
import type { Plane } from '../base/plane';
import type { SpotField } from './spots-field';

/** Where a spot's contrast is largest. */
export interface SpotPeak {
  readonly column: number;
  readonly row: number;
  /** Size at which it answered most, mm (about the standard deviation of a Gaussian spot). */
  readonly scaleMm: number;
}

interface Candidate extends SpotPeak {
  readonly response: number;
}

const finestScaleMm = 1;
const scaleStep = 1.5;
/** The surroundings that a size is compared with are so much wider. */
const surround = 1.6;
/** Wide, shallow spots answer with no more; whether they are seen is decided by their contrast. */
const leastResponse = 0.01;
/** Contrast that is called a spot, ln units: 5 %. */
const leastContrast = 0.05;
/** Half the width of the area within which a candidate must be the largest, and of a step uphill, mm. */
const reachMm = 1;
/** Two peaks with no deeper saddle between them than this share of the lower are one. */
const joiningShare = 0.8;

/** Sizes searched: 1 mm and on in steps of 1.5, up to a fifth of the width or two fifths of the height. */
function scalesFor(widthMm: number, heightMm: number): number[] {
  const scales = [finestScaleMm];
  const coarsest = Math.min(widthMm, 2 * heightMm) / 5;
  while (scales[scales.length - 1] * scaleStep <= coarsest) scales.push(scales[scales.length - 1] * scaleStep);
  return scales;
}

/** How much the contrast stands out at each size searched, positive = brighter than its surroundings. */
interface ScaleSpace {
  readonly scalesMm: readonly number[];
  readonly responses: readonly Plane[];
}

function scaleSpaceOf({ contrast, inside, pxPerMm }: SpotField): ScaleSpace {
  const scalesMm = scalesFor(inside.width / pxPerMm, inside.height / pxPerMm);
  const responses = scalesMm.map((scaleMm) => {
    const centre = blurMasked(contrast, inside, scaleMm * pxPerMm).blurred;
    const around = blurMasked(contrast, inside, surround * scaleMm * pxPerMm).blurred;
    return { ...centre, values: centre.values.map((value, i) => value - around.values[i]) };
  });
  return { scalesMm, responses };
}

function negative(plane: Plane): Plane {
  return { ...plane, values: plane.values.map((value) => -value) };
}

/** Largest answer inside within reach (a square) of each cell, -Infinity where there is none: first along rows, then columns. */
function largestAbout({ width, height, values }: Plane, isInside: Uint8Array, reach: number): Float32Array {
  const across = new Float32Array(values.length).fill(-Infinity);
  const largest = new Float32Array(values.length).fill(-Infinity);
  for (let i = 0; i < values.length; i++) {
    if (!isInside[i]) continue;
    const column = i % width;
    const from = i - Math.min(reach, column);
    const to = i + Math.min(reach, width - 1 - column);
    for (let at = from; at <= to; at++) if (values[i] > across[at]) across[at] = values[i];
  }
  for (let row = 0; row < height; row++) {
    for (let y = Math.max(0, row - reach); y <= Math.min(height - 1, row + reach); y++) {
      for (let column = 0, to = row * width, from = y * width; column < width; column++, to++, from++) {
        if (across[from] > largest[to]) largest[to] = across[from];
      }
    }
  }
  return largest;
}

/** Uphill in steps to the largest value within 1 mm, until none is larger. */
function climb(contrast: Plane, from: Candidate, field: SpotField): Candidate {
  const { width, height } = contrast;
  const reach = Math.round(reachMm * field.pxPerMm);
  let { column, row } = from;
  for (;;) {
    let best = row * width + column;
    for (let y = Math.max(0, row - reach); y <= Math.min(height - 1, row + reach); y++) {
      for (let x = Math.max(0, column - reach); x <= Math.min(width - 1, column + reach); x++) {
        if (contrast.values[y * width + x] > contrast.values[best]) best = y * width + x;
      }
    }
    if (best === row * width + column) return { ...from, column, row };
    row = Math.floor(best / width);
    column = best - row * width;
  }
}

/** Candidates, strongest answer first; of equals the upper, then the left one. */
function candidatesOf({ scalesMm, responses }: ScaleSpace, field: SpotField): Candidate[] {
  const { width, values: isInside } = field.inside;
  const reach = Math.round(reachMm * field.pxPerMm);
  const largest = responses.map((response) => largestAbout(response, isInside, reach));
  const found: Candidate[] = [];
  for (const [scale, { values }] of responses.entries()) {
    // At least as large as all within reach, at its own size and the two beside it.
    const beside = largest.slice(Math.max(0, scale - 1), scale + 2);
    for (let i = 0; i < values.length; i++) {
      if (!isInside[i] || !(values[i] > leastResponse)) continue;
      if (beside.some((about) => about[i] > values[i])) continue;
      const row = Math.floor(i / width);
      found.push({ column: i - row * width, row, scaleMm: scalesMm[scale], response: values[i] });
    }
  }
  return found.sort((a, b) => b.response - a.response || a.row - b.row || a.column - b.column);
}

/** Smallest contrast on the straight line between two peaks; cells outside do not count. */
function saddleBetween(contrast: Plane, a: SpotPeak, b: SpotPeak): number {
  const steps = Math.max(1, Math.abs(b.column - a.column), Math.abs(b.row - a.row));
  let lowest = Infinity;
  for (let k = 0; k <= steps; k++) {
    const column = Math.round(a.column + ((b.column - a.column) * k) / steps);
    const row = Math.round(a.row + ((b.row - a.row) * k) / steps);
    const value = contrast.values[row * contrast.width + column];
    if (value < lowest) lowest = value;
  }
  return lowest;
}

function areOne(contrast: Plane, a: SpotPeak, b: SpotPeak, pxPerMm: number): boolean {
  const distanceMm = Math.sqrt((a.column - b.column) ** 2 + (a.row - b.row) ** 2) / pxPerMm;
  if (distanceMm < Math.max(a.scaleMm, b.scaleMm)) return true;
  const at = (peak: SpotPeak): number => contrast.values[peak.row * contrast.width + peak.column];
  return saddleBetween(contrast, a, b) > joiningShare * Math.min(at(a), at(b));
}

/** The tops that candidates climb to, twins joined, strongest answer first. */
function distinctPeaks(contrast: Plane, candidates: readonly Candidate[], field: SpotField): SpotPeak[] {
  const at = (peak: SpotPeak): number => contrast.values[peak.row * contrast.width + peak.column];
  const kept: SpotPeak[] = [];
  for (const candidate of candidates) {
    const { column, row, scaleMm } = climb(contrast, candidate, field);
    const peak = { column, row, scaleMm };
    if (!(at(peak) >= leastContrast)) continue;
    const twin = kept.findIndex((one) => areOne(contrast, one, peak, field.pxPerMm));
    if (twin < 0) kept.push(peak);
    else if (at(peak) > at(kept[twin])) kept[twin] = { ...peak, scaleMm: kept[twin].scaleMm };
  }
  return kept;
}

/** Peaks of one kind, and the contrast they are peaks of: positive at both kinds. */
export interface PeaksOfKind {
  readonly kind: 'hot' | 'dark';
  readonly contrast: Plane;
  readonly peaks: readonly SpotPeak[];
}

/**
 * Peaks of the contrast, bright and dark, over place and size.
 *
 * Candidates are the largest answers of Gauss(s) - Gauss(1.6 s), s = 1 mm x 1.5^k up to min(W, 2 H) / 5, within 1 mm and
 * the sizes beside, above 0.01; each climbs to the top of its hill, which must reach 0.05. Two are one when closer than the
 * larger size, or when the contrast between them stays above 80 % of the lower peak; the higher peak stays.
 *
 * @param field  not altered
 * @returns hot, then dark
 * @source blobs over scale: Lindeberg, Feature detection with automatic scale selection, 1998 (from memory); thresholds and
 *         joining: our own choice, after two equal spots of 4 mm, told apart from 3 standard deviations on
 * @rule SP2
 */
export function spotPeaks(field: SpotField): [PeaksOfKind, PeaksOfKind] {
  const { scalesMm, responses } = scaleSpaceOf(field);
  const ofKind = (kind: 'hot' | 'dark', contrast: Plane, space: ScaleSpace): PeaksOfKind => {
    return { kind, contrast, peaks: distinctPeaks(contrast, candidatesOf(space, field), field) };
  };
  return [
    ofKind('hot', field.contrast, { scalesMm, responses }),
    ofKind('dark', negative(field.contrast), { scalesMm, responses: responses.map(negative) }),
  ];
}
