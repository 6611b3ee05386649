import { blurMasked } from '../base/gaussian';
import type { Mask, Plane } from '../base/plane';
import { meanOf, percentilesOf, populationDeviationOf } from '../base/stats';
import type { GlowMap } from './glow-map';
import { glowValues } from './luminance';

/** The figures of evenness that other people also use, of the smoothed glow. */
export interface ClassicFigures {
  readonly minOverMax: number;
  readonly p5OverP95: number;
  /** Population standard deviation over the mean. */
  readonly coefficientOfVariation: number;
  /** 99th percentile of the gradient of ln L, per cent a mm. */
  readonly steepestPercentPerMm: number;
  /** Mean left of the middle line over the mean right of it; null when a half has no glow. */
  readonly leftOverRight: number | null;
  readonly topOverBottom: number | null;
}

/** Smoothing before the figures, and before the gradient, mm. */
const smoothingMm = 0.5;
const gradientSmoothingMm = 1;

/** Mean of the glow on the one side of a line over the mean on the other; cells with their centre on the line count for neither. */
function sideRatio(light: Plane, glow: Mask, signedDistance: (column: number, row: number) => number): number | null {
  const sums = [0, 0];
  const counts = [0, 0];
  for (let i = 0; i < glow.values.length; i++) {
    if (!glow.values[i]) continue;
    const row = Math.floor(i / glow.width);
    const distance = signedDistance(i - row * glow.width + 0.5, row + 0.5);
    if (Math.abs(distance) < 1e-6) continue;
    const side = distance < 0 ? 0 : 1;
    sums[side] += light.values[i];
    counts[side] += 1;
  }
  if (!counts[0] || !counts[1] || !(sums[1] > 0)) return null;
  return sums[0] / counts[0] / (sums[1] / counts[1]);
}

/** |grad ln L| on the glow, ln units a mm, central differences (one-sided at the plane's edge). */
function logGradients(light: Plane, glow: Mask, pxPerMm: number): number[] {
  const { width, height } = light;
  const logAt = (column: number, row: number): number => Math.log(light.values[row * width + column]);
  const slope = (at: (place: number) => number, place: number, length: number): number => {
    const from = Math.max(0, place - 1);
    const to = Math.min(length - 1, place + 1);
    return to > from ? ((at(to) - at(from)) / (to - from)) * pxPerMm : 0;
  };
  const gradients: number[] = [];
  for (let i = 0; i < glow.values.length; i++) {
    if (!glow.values[i]) continue;
    const row = Math.floor(i / width);
    const column = i - row * width;
    const along = slope((place) => logAt(place, row), column, width);
    const across = slope((place) => logAt(column, place), row, height);
    const gradient = Math.hypot(along, across);
    if (Number.isFinite(gradient)) gradients.push(gradient);
  }
  return gradients;
}

/**
 * Classic figures of evenness.
 *
 * The light is smoothed over the print-free cells of the whole outline by normalised convolution, sigma 0.5 mm (1 mm for the
 * gradient); then the glow's cells are taken. These figures are not weighed by what an eye sees.
 *
 * @param map  not altered
 * @returns ratios 0..1 (side ratios 0 or more); null when there is no glow, or none with light
 * @source common practice in the measurement of projectors and displays
 * @rule EV4
 */
export function classicFigures(map: GlowMap): ClassicFigures | null {
  const smoothed = blurMasked(map.relLuminance, map.printFree, smoothingMm * map.pxPerMm).blurred;
  const values = glowValues(smoothed, map.glow);
  if (values.length === 0) return null;
  const [min, p5, p95, max] = percentilesOf(values, [0, 5, 95, 100]);
  if (!(max > 0) || !(p95 > 0)) return null;
  const forGradient = blurMasked(map.relLuminance, map.printFree, gradientSmoothingMm * map.pxPerMm).blurred;
  const [steepest] = percentilesOf(logGradients(forGradient, map.glow, map.pxPerMm), [99]);
  const middleColumn = (map.widthMm * map.pxPerMm) / 2;
  const middleRow = (map.heightMm * map.pxPerMm) / 2;
  return {
    minOverMax: min / max,
    p5OverP95: p5 / p95,
    coefficientOfVariation: populationDeviationOf(values) / meanOf(values),
    steepestPercentPerMm: 100 * steepest,
    leftOverRight: sideRatio(smoothed, map.glow, (column) => column - middleColumn),
    topOverBottom: sideRatio(smoothed, map.glow, (_, row) => row - middleRow),
  };
}
