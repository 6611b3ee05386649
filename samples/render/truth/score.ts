import { cellsPerMm, type GlowMap } from './glow-cells';
import { weightedBlur } from './smoothing';

const viewingDistanceMm = 500;
const adaptingCdM2 = 10;
const fieldFactor = 2.5;

/** Contrast sensitivity at u cycles per degree for a field of `areaDeg2` (Barten 2003, simplified form). */
function contrastSensitivity(u: number, areaDeg2: number): number {
  const lens = 5200 * Math.exp(-0.0016 * u * u * Math.pow(1 + 100 / adaptingCdM2, 0.08));
  const size = 1 + 144 / areaDeg2 + 0.64 * u * u;
  const noise = 63 / Math.pow(adaptingCdM2, 0.83) + 1 / (1 - Math.exp(-0.02 * u * u));
  return lens / Math.sqrt(size * noise);
}

/** The map without its border, as logarithms with mean 0 over the glow. */
function logOfGlow(map: GlowMap): { l: Float64Array; mask: Float64Array; width: number; height: number } {
  const cut = Math.round(map.borderMm * cellsPerMm);
  const [width, height] = [map.nx - 2 * cut, map.ny - 2 * cut];
  const source = (i: number) => (Math.floor(i / width) + cut) * map.nx + (i % width) + cut;
  const mask = Float64Array.from({ length: width * height }, (_, i) => map.glow[source(i)]);
  const l = mask.map((m, i) => (m ? Math.log(map.xyz[1][source(i)]) : 0));
  const mean = l.reduce((a, b) => a + b, 0) / mask.reduce((a, b) => a + b, 0);
  return { l: l.map((value, i) => (mask[i] ? value - mean : 0)), mask, width, height };
}

const beyond = (value: number, threshold: number): number =>
  Math.sign(value) * Math.max(0, Math.abs(value) - threshold);

/** Evenness 0..100 of a print-free glow: what of it stands above the eye's threshold, pooled with power 4. */
export function evennessScore(map: GlowMap): number {
  const { l, mask, width, height } = logOfGlow(map);
  const [widthMm, heightMm] = [width / cellsPerMm, height / cellsPerMm];
  const degPerMm = 180 / (Math.PI * viewingDistanceMm);
  const areaDeg2 = widthMm * heightMm * degPerMm * degPerMm;
  const longMm = Math.max(widthMm, heightMm);
  const coarsest = Math.max(longMm / 5, 1.5);
  const bands = Math.max(1, Math.round(Math.log2(coarsest / 0.75)));
  const step = Math.pow(coarsest / 0.75, 1 / bands);
  const sigmas = Array.from({ length: bands + 1 }, (_, k) => 0.75 * Math.pow(step, k));
  const levels = sigmas.map((sigma) => weightedBlur(l, mask, width, height, sigma * cellsPerMm));
  const x = Math.log(step * step) / (step * step - 1);
  const gain = Math.exp(-x) - Math.exp(-step * step * x);
  const residual = new Float64Array(l.length);
  for (let k = 0; k < bands; k++) {
    const frequency = Math.sqrt(x / 2) / (Math.PI * sigmas[k] * degPerMm);
    const threshold = (gain * fieldFactor) / contrastSensitivity(frequency, areaDeg2);
    for (let i = 0; i < l.length; i++) residual[i] += beyond(levels[k][i] - levels[k + 1][i], threshold);
  }
  const count = mask.reduce((a, b) => a + b, 0);
  const baseMean = levels[bands].reduce((sum, value, i) => sum + value * mask[i], 0) / count;
  const baseThreshold = fieldFactor / contrastSensitivity(0.5 / (longMm * degPerMm), areaDeg2);
  for (let i = 0; i < l.length; i++) residual[i] += beyond(levels[bands][i] - baseMean, baseThreshold);
  const fourth = residual.reduce((sum, value, i) => sum + mask[i] * value ** 4, 0) / count;
  return 100 / (1 + Math.pow(Math.pow(fourth, 0.25) / 0.19, 1.2));
}
