import { figure, missing, noReference } from '../contract/figure';
import type { LuminanceEntry } from '../contract/readings';
import { approximateCdM2, exposureNormalisation, type Exposure } from '../photo/exposure';
import type { GlowMap } from './glow-map';
import { glowMean } from './luminance';
import { coverageFactor, luminanceUncertainty, type UncertaintyBasis } from './uncertainty';

export interface LuminanceInput {
  readonly map: GlowMap;
  readonly basis: UncertaintyBasis;
  readonly exposure: Exposure | null;
  readonly refusal: string | null;
  readonly clippedShare: number;
}

const noExposure = 'the exposure time, f-number and ISO are not all known';

/**
 * The figures of luminance: mean of the glow (exposure-normalised when the exposure is known), and about how many cd/m^2
 * that is, a factor of 2 either way.
 *
 * @rule RD6
 */
export function luminanceEntry({ map, basis, exposure, refusal, clippedShare }: LuminanceInput): LuminanceEntry {
  const rest = { ofReference: missing(noReference), clippedShare, ambientShare: basis.ambientShare };
  const mean = glowMean(map);
  if (refusal !== null || mean === null) {
    const none = missing(refusal ?? 'there is no glow');
    return { glowMean: none, cdM2: none, ...rest };
  }
  const scale = exposure ? exposureNormalisation(exposure) : 1;
  const cdM2 = exposure ? approximateCdM2(Math.max(0, mean), exposure) : null;
  return {
    glowMean: figure(scale * mean, coverageFactor * luminanceUncertainty(mean, basis) * Math.abs(scale * mean)),
    cdM2: cdM2 === null ? missing(noExposure) : figure(cdM2, cdM2),
    ...rest,
  };
}
