import { blurMasked, blurredWeight } from '../../base/gaussian';
import { createPlane, type Mask, type Plane } from '../../base/plane';
import { medianOf } from '../../base/stats';

/** What is further from the middle than so many robust deviations is no stripe: print that was left over, dust. */
const mostDeviations = 4;

/** 1 where a cell and its four neighbours are in the mask: print leaks into the cells beside it. */
function innerCells({ width, height, values }: Mask): Mask {
  const inner = new Uint8Array(values.length);
  for (let row = 1; row < height - 1; row++) {
    for (let i = row * width + 1; i < (row + 1) * width - 1; i++) {
      inner[i] = values[i] & values[i - 1] & values[i + 1] & values[i - width] & values[i + width];
    }
  }
  return { width, height, values: inner };
}

/**
 * ln of the glow's light without what changes slowly: twice itself minus its Gaussian mean over the mask.
 *
 * Twice, because at the glow's rim the mean of a slope is not the slope. A wave of period p keeps (1 - g)^2 of itself,
 * g = exp(-2 (pi sigma / p)^2). Values beyond 4 robust deviations are brought back to that.
 *
 * @param relLuminance  linear light; not altered
 * @param glow          where it counts; its rim cells are left out; not altered
 * @param sigmaCells    of the mean
 * @returns `light` in ln units (0 outside) and the mask of cells that count
 * @source common practice (high-pass by a normalised Gaussian)
 * @rule CK2
 */
export function flattenedLight(relLuminance: Plane, glow: Mask, sigmaCells: number): { light: Plane; cells: Mask } {
  const cells = innerCells(glow);
  let light = createPlane(glow.width, glow.height);
  for (let i = 0; i < cells.values.length; i++) {
    if (!(relLuminance.values[i] > 0)) cells.values[i] = 0;
    if (cells.values[i]) light.values[i] = Math.log(relLuminance.values[i]);
  }
  const weight = blurredWeight(cells, sigmaCells);
  for (let pass = 0; pass < 2; pass++) {
    const { blurred } = blurMasked(light, cells, sigmaCells, weight);
    light = { ...light, values: light.values.map((value, i) => (cells.values[i] ? value - blurred.values[i] : 0)) };
  }
  const most = mostDeviations * 1.4826 * medianOf(light.values.filter((_, i) => cells.values[i]).map(Math.abs));
  return { light: { ...light, values: light.values.map((v) => Math.min(most, Math.max(-most, v))) }, cells };
}

/**
 * What flattening leaves of a wave, 0..1: (1 - g)^2, g = exp(-2 (pi sigma / p)^2).
 *
 * @param sigmaOverPeriod  deviation of the mean over the wave's period
 * @source the Gaussian's transfer function
 * @rule CK2
 */
export function shareKept(sigmaOverPeriod: number): number {
  return (1 - Math.exp(-2 * (Math.PI * sigmaOverPeriod) ** 2)) ** 2;
}
