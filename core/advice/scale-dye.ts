import { uv1976FromXyz, type Uv1976 } from '../colour/chromaticity';
import { xyzFromSpectrum, type Spectrum } from '../colour/spectra';
import { uvDistance } from '../colour/steps';
import { dyeTransmission } from './families/scale-models';
import { throughFilter } from './model-spectra';

export interface FittedDye {
  /** Where the dye begins to let light through, nm. */
  readonly edgeNm: number;
  readonly transmission: Spectrum;
  /** How far the glow is from what this dye gives, u'v'. */
  readonly missUv: number;
}

/** Edges of dyes from hardly yellow to orange, nm, and the step of the search. */
const firstEdgeNm = 400;
const lastEdgeNm = 600;
const stepNm = 0.5;

/**
 * The dye whose glow under a known lamp comes nearest to a measured one: the edge of an amber dye, 400 to 600 nm, 0.5 nm a step.
 *
 * A scale that is no amber leaves a large `missUv`.
 *
 * @param lamp  the spectrum that lit the scale when it was measured
 * @source our own model of the dye, see `dyeTransmission`
 * @rule LA12
 */
export function fitDye(glow: Uv1976, lamp: Spectrum): FittedDye {
  let best: FittedDye | null = null;
  for (let edgeNm = firstEdgeNm; edgeNm <= lastEdgeNm; edgeNm += stepNm) {
    const transmission = dyeTransmission(edgeNm);
    const missUv = uvDistance(uv1976FromXyz(xyzFromSpectrum(throughFilter(lamp, transmission))), glow);
    if (best === null || missUv < best.missUv) best = { edgeNm, transmission, missUv };
  }
  return best!;
}
