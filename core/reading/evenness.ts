import { blurMasked } from '../base/gaussian';
import { assertSameShape, createMask, createPlane, type Mask, type Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import { contrastSensitivity } from './contrast-sensitivity';

export interface EvennessOptions {
  readonly pxPerMm: number;
  /** Cut off on each side before anything else, mm. */
  readonly borderMm: number;
  readonly viewingDistanceMm: number;
}

export interface Evenness {
  /** 0..100; 100 = nothing uneven can be seen. */
  readonly score: number;
  /** Pooled visible residual, ln units, 0 or more. */
  readonly visibleUnevenness: number;
  /** What the eye sees, ln units, positive = too bright; on the grid of the input, NaN where there is no glow. */
  readonly residual: Plane;
}

/** Finest blur of the ladder, mm. */
const finestSigmaMm = 0.75;
/** Luminance that the eye is taken to be adapted to; 1..100 moves the score by 1.2 points at most. */
const adaptationCdM2 = 10;
/** From laboratory thresholds to unforced viewing on a bench. */
const fieldFactor = 2.5;
/** Pooling exponent over the glow. */
const poolingExponent = 4;
/** Visible unevenness that halves the score, and how steeply it falls there. */
const halfScoreUnevenness = 0.19;
const scoreSteepness = 1.2;

/** Blurs and thresholds of one window: sigma[k] for every level, threshold[k] for band k, the last for the base. */
interface Ladder {
  readonly sigmasMm: readonly number[];
  readonly thresholds: readonly number[];
}

/**
 * The blur ladder of a window and the smallest contrast seen in each band.
 *
 * s_k = 0.75 a^k mm, k = 0..K, s_K = max(long side / 5, 1.5), K = round(log2(s_K / 0.75)). A band G_k - G_k+1 passes most at
 * f = sqrt(x/2) / (pi s_k), x = ln(a^2) / (a^2 - 1), by exp(-x) - exp(-a^2 x); threshold = that gain * 2.5 / S(f).
 * The base has half a cycle along the long side. Continuous in the window's size.
 */
function ladderFor(widthMm: number, heightMm: number, viewingDistanceMm: number): Ladder {
  const degPerMm = 180 / Math.PI / viewingDistanceMm;
  const areaDeg2 = widthMm * heightMm * degPerMm * degPerMm;
  const longSideMm = Math.max(widthMm, heightMm);
  const coarsestMm = Math.max(longSideMm / 5, 2 * finestSigmaMm);
  const bands = Math.max(1, Math.round(Math.log2(coarsestMm / finestSigmaMm)));
  const ratio = Math.pow(coarsestMm / finestSigmaMm, 1 / bands);
  const x = Math.log(ratio * ratio) / (ratio * ratio - 1);
  const gain = Math.exp(-x) - Math.exp(-ratio * ratio * x);
  const threshold = (cyclesPerMm: number): number =>
    fieldFactor / contrastSensitivity(cyclesPerMm / degPerMm, adaptationCdM2, areaDeg2);
  const sigmasMm = Array.from({ length: bands + 1 }, (_, k) => finestSigmaMm * Math.pow(ratio, k));
  const ofBands = sigmasMm.slice(0, bands).map((sigmaMm) => gain * threshold(Math.sqrt(x / 2) / (Math.PI * sigmaMm)));
  return { sigmasMm, thresholds: [...ofBands, threshold(0.5 / longSideMm)] };
}

/** Mean of the values where the mask is set. */
function meanWithin(values: ArrayLike<number>, mask: Mask): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < mask.values.length; i++) {
    if (!mask.values[i]) continue;
    sum += values[i];
    count += 1;
  }
  return sum / count;
}

/** Less light than this share of the glow's median counts as this much: black has no logarithm. */
const leastLightShare = 1e-4;

/** The least light that is told from black; 0 when the glow has no light at all. */
function leastLight(relLuminance: Plane, glow: Mask): number {
  const light = Array.from(relLuminance.values).filter((value, i) => glow.values[i] === 1 && value > 0);
  return light.length ? leastLightShare * medianOf(light) : 0;
}

/** ln of the light about its mean over the glow, the border cut off; no cell is lit when there is no light at all. */
function cutLogLight(relLuminance: Plane, glow: Mask, borderPx: number): { logLight: Plane; lit: Mask } {
  const width = relLuminance.width - 2 * borderPx;
  const height = relLuminance.height - 2 * borderPx;
  if (width < 1 || height < 1) throw new RangeError('the border takes the whole map');
  const floor = leastLight(relLuminance, glow);
  const lit = createMask(width, height);
  const logs = new Float64Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const from = (row + borderPx) * relLuminance.width + column + borderPx;
      const light = relLuminance.values[from];
      if (!glow.values[from] || !(floor > 0) || !Number.isFinite(light)) continue;
      const to = row * width + column;
      lit.values[to] = 1;
      logs[to] = Math.log(Math.max(light, floor));
    }
  }
  const mean = meanWithin(logs, lit);
  const logLight = createPlane(width, height);
  for (let i = 0; i < logs.length; i++) if (lit.values[i]) logLight.values[i] = logs[i] - mean;
  return { logLight, lit };
}

/** Adds to the residual what of a band lies above its threshold: perceived contrast is contrast less threshold. */
function addVisible(residual: Float64Array, bandAt: (i: number) => number, threshold: number): void {
  for (let i = 0; i < residual.length; i++) {
    const band = bandAt(i);
    const visible = Math.abs(band) - threshold;
    if (visible > 0) residual[i] += band > 0 ? visible : -visible;
  }
}

/** The sum of what is visible in all bands, on the cut grid. */
function visibleResidual(logLight: Plane, lit: Mask, pxPerMm: number, { sigmasMm, thresholds }: Ladder): Float64Array {
  const residual = new Float64Array(logLight.values.length);
  let finer = blurMasked(logLight, lit, sigmasMm[0] * pxPerMm).blurred.values;
  for (let k = 1; k < sigmasMm.length; k++) {
    const coarser = blurMasked(logLight, lit, sigmasMm[k] * pxPerMm).blurred.values;
    const fine = finer;
    addVisible(residual, (i) => fine[i] - coarser[i], thresholds[k - 1]);
    finer = coarser;
  }
  const mean = meanWithin(finer, lit);
  addVisible(residual, (i) => finer[i] - mean, thresholds[thresholds.length - 1]);
  return residual;
}

/**
 * The score of a pooled visible residual: 100 / (1 + (U / 0.19)^1.2).
 *
 * @param visibleUnevenness  0 or more, ln units
 * @returns 0..100
 * @source our own choice: an even window 100, a spot of twice the light in the middle of a scale 50
 * @rule EV1
 */
export function scoreOfUnevenness(visibleUnevenness: number): number {
  return 100 / (1 + Math.pow(visibleUnevenness / halfScoreUnevenness, scoreSteepness));
}

/**
 * How even the glow looks, 0..100; 100 = nothing uneven can be seen from the viewing distance.
 *
 * ln L is split into bands an octave wide or so by Gaussian blurs that see glow only; from each band the eye's threshold for
 * that fineness is taken off; what is left is summed to the residual r, and U = (mean |r|^4)^(1/4) over the glow.
 * Independent of exposure, and of the grid from 2 to 12 cells a mm. Print must be masked: it counts as dark otherwise.
 *
 * @param relLuminance  relative luminance, any scale; values outside the glow may be anything; not altered
 * @param glow          cells that count; not altered
 * @throws RangeError when no cell glows, or the border takes the whole map: gates come before
 * @source thresholds: Barten 2003; subtraction: Kulikowski, Effective contrast constancy and linearity of contrast sensation,
 * 1976 (from memory), Peli 1991; field factor, pooling and scale: our own choice, see `scoreOfUnevenness`
 * @rule EV1, EV2, EV3
 */
export function scoreEvenness(relLuminance: Plane, glow: Mask, options: EvennessOptions): Evenness {
  assertSameShape(relLuminance, glow);
  const { pxPerMm, borderMm, viewingDistanceMm } = options;
  const borderPx = Math.round(borderMm * pxPerMm);
  const { logLight, lit } = cutLogLight(relLuminance, glow, borderPx);
  if (!lit.values.includes(1)) throw new RangeError('no glow to score');
  const ladder = ladderFor(lit.width / pxPerMm, lit.height / pxPerMm, viewingDistanceMm);
  const visible = visibleResidual(logLight, lit, pxPerMm, ladder);
  const pooled = meanWithin(
    visible.map((r) => Math.pow(Math.abs(r), poolingExponent)),
    lit,
  );
  const visibleUnevenness = Math.pow(pooled, 1 / poolingExponent);
  const residual = createPlane(relLuminance.width, relLuminance.height, NaN);
  for (let i = 0; i < lit.values.length; i++) {
    if (!lit.values[i]) continue;
    const row = Math.floor(i / lit.width);
    residual.values[(row + borderPx) * residual.width + borderPx + (i - row * lit.width)] = visible[i];
  }
  return { score: scoreOfUnevenness(visibleUnevenness), visibleUnevenness, residual };
}
