import { borderMm, cellsPerMm, type GlowCells } from './glow-cells';
import { normalisedBlur } from './normalised-blur';

/** Adaptation luminance of the sensitivity formula, cd/m2. */
const adaptation = 10;
/** From the threshold in a laboratory to that of unforced viewing. */
const fieldFactor = 2.5;
/** Visible unevenness that scores 50. */
const unevennessAt50 = 0.19;
const finestBlurMm = 0.75;

/** Contrast sensitivity (Barten 2003) at `u` cycles per degree in a field of `areaDeg2` square degrees. */
function sensitivity(u: number, areaDeg2: number): number {
  const optics = 5200 * Math.exp(-0.0016 * u * u * Math.pow(1 + 100 / adaptation, 0.08));
  const integration = 1 + 144 / areaDeg2 + 0.64 * u * u;
  const noise = 63 / Math.pow(adaptation, 0.83) + 1 / (1 - Math.exp(-0.02 * u * u));
  return optics / Math.sqrt(integration * noise);
}

interface CutMap {
  readonly columns: number;
  readonly rows: number;
  readonly logLight: Float64Array;
  readonly mask: Uint8Array;
}

/** The map without its border, ln of luminance less its mean over the glow. */
function cutMap(cells: GlowCells): CutMap {
  const border = borderMm(cells.widthMm, cells.heightMm);
  const first = Math.ceil(border * cellsPerMm - 1e-9);
  const columns = Math.floor((cells.widthMm - border) * cellsPerMm + 1e-9) - first;
  const rows = Math.floor((cells.heightMm - border) * cellsPerMm + 1e-9) - first;
  const logLight = new Float64Array(columns * rows);
  const mask = new Uint8Array(columns * rows);
  let sum = 0;
  let count = 0;
  for (let at = 0; at < logLight.length; at++) {
    const from = (Math.floor(at / columns) + first) * cells.columns + (at % columns) + first;
    if (!cells.isGlow[from]) continue;
    mask[at] = 1;
    logLight[at] = Math.log(cells.xyz[1][from]);
    sum += logLight[at];
    count++;
  }
  return { columns, rows, mask, logLight: logLight.map((value, at) => (mask[at] ? value - sum / count : 0)) };
}

function overThreshold(value: number, threshold: number): number {
  return Math.sign(value) * Math.max(0, Math.abs(value) - threshold);
}

/**
 * Evenness score 0..100 of the light of a window seen from `distanceMm`: 100 / (1 + (U / 0.19)^1.2), U the fourth-power mean over
 * the glow of what of each blur band stands above the eye's threshold.
 */
export function evennessScore(cells: GlowCells, distanceMm = 500): number {
  const { columns, rows, logLight, mask } = cutMap(cells);
  const [widthMm, heightMm] = [columns / cellsPerMm, rows / cellsPerMm];
  const degPerMm = 180 / Math.PI / distanceMm;
  const areaDeg2 = widthMm * heightMm * degPerMm * degPerMm;
  const longSideMm = Math.max(widthMm, heightMm);
  const coarsestBlurMm = Math.max(longSideMm / 5, 2 * finestBlurMm);
  const bands = Math.max(1, Math.round(Math.log2(coarsestBlurMm / finestBlurMm)));
  const ratio = Math.pow(coarsestBlurMm / finestBlurMm, 1 / bands);
  const x = Math.log(ratio * ratio) / (ratio * ratio - 1);
  const gain = Math.exp(-x) - Math.exp(-ratio * ratio * x);
  const blurMm = Array.from({ length: bands + 1 }, (_, k) => finestBlurMm * Math.pow(ratio, k));
  const ladder = blurMm.map((sigma) => normalisedBlur(logLight, mask, columns, rows, sigma * cellsPerMm));

  const visible = new Float64Array(logLight.length);
  for (let k = 0; k < bands; k++) {
    const peakPerDeg = Math.sqrt(x / 2) / (Math.PI * blurMm[k] * degPerMm);
    const threshold = (gain * fieldFactor) / sensitivity(peakPerDeg, areaDeg2);
    for (let at = 0; at < visible.length; at++) {
      visible[at] += overThreshold(ladder[k][at] - ladder[k + 1][at], threshold);
    }
  }
  const base = ladder[bands];
  const baseMean = meanOver(mask, base);
  const baseThreshold = fieldFactor / sensitivity(0.5 / (longSideMm * degPerMm), areaDeg2);
  for (let at = 0; at < visible.length; at++) visible[at] += overThreshold(base[at] - baseMean, baseThreshold);
  const unevenness = Math.pow(
    meanOver(
      mask,
      visible.map((value) => value ** 4),
    ),
    0.25,
  );
  return 100 / (1 + Math.pow(unevenness / unevennessAt50, 1.2));
}

function meanOver(mask: Uint8Array, values: Float64Array): number {
  let sum = 0;
  let count = 0;
  for (let at = 0; at < values.length; at++) {
    if (!mask[at]) continue;
    sum += values[at];
    count++;
  }
  return sum / count;
}
