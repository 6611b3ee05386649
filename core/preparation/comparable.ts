import { adaptationMatrix } from '../colour/adapt';
import type { Matrix3 } from '../colour/matrix3';
import type { WitnessPatch } from '../contract/measure';
import type { CameraFacts } from '../contract/readings';
import { exposureNormalisation, luminanceRatioUncertainty } from '../photo/exposure';
import { completeExposure } from '../photo/exposure-of';
import { matchWhiteBalance } from '../photo/white-balance';

/** What decides whether two photos compare: their cameras' notes, and a patch that did not change between them. */
export interface ComparedPhoto {
  readonly camera: CameraFacts;
  readonly witness: WitnessPatch | null;
}

/** How the luminances of two photos compare. */
export type LuminanceTie =
  | {
      readonly by: 'exposure' | 'witness';
      /** What luminances of the second photo (1 = its full scale) are multiplied by to be in the first one's unit. */
      readonly scale: number;
      /** Relative, k = 1. */
      readonly relUncertainty: number;
    }
  | { readonly by: null; readonly reason: string };

/** How the colours of two photos compare. */
export type ColourTie =
  | { readonly by: 'settings' }
  | {
      readonly by: 'witness';
      /** Takes XYZ of the second photo to XYZ as the first one would have shown them. */
      readonly toFirst: Matrix3;
      readonly relUncertainty: number;
    }
  | { readonly by: null; readonly verdict: 'differs' | 'unknown'; readonly reason: string };

/** What a patch leaves in doubt beside its noise: decoding at two levels. @source as for equal settings, LU11 */
const patchDoubt = 0.03;

const doubtOf = (a: WitnessPatch, b: WitnessPatch): number =>
  Math.hypot(patchDoubt, a.relUncertainty, b.relUncertainty);

/**
 * What ties the luminances of two photos: their exposures where both are known, else a witness patch in both.
 *
 * @source N^2 / (t S): ISO 2720:1974; witness: its luminance did not change, so its ratio is that of the photos
 * @rule CP5
 */
export function tieLuminance(first: ComparedPhoto, second: ComparedPhoto): LuminanceTie {
  const [a, b] = [completeExposure(first.camera), completeExposure(second.camera)];
  if (a && b) {
    const scale = exposureNormalisation(b) / exposureNormalisation(a);
    return { by: 'exposure', scale, relUncertainty: luminanceRatioUncertainty(a, b) };
  }
  if (first.witness && second.witness) {
    const scale = first.witness.xyz[1] / second.witness.xyz[1];
    return { by: 'witness', scale, relUncertainty: doubtOf(first.witness, second.witness) };
  }
  return { by: null, reason: 'the exposure of a photo is not known, and no witness patch is in both' };
}

/**
 * What ties the colours of two photos: equal settings, else a witness patch in both, whose cone responses (CAT16) are
 * brought together at equal luminance.
 *
 * @source CAT16: Li et al. 2017; which of the two goes first is our own choice: a patch measures what notes only claim, but
 *   its noise and place enter
 * @rule CP5
 */
export function tieColour(first: ComparedPhoto, second: ComparedPhoto): ColourTie {
  const match = matchWhiteBalance(first.camera, second.camera);
  if (match.verdict === 'same') return { by: 'settings' };
  const [a, b] = [first.witness, second.witness];
  if (!a || !b) return { by: null, verdict: match.verdict, reason: match.reason };
  const level = (patch: WitnessPatch) =>
    [patch.xyz[0] / patch.xyz[1], 1, patch.xyz[2] / patch.xyz[1]] as const satisfies WitnessPatch['xyz'];
  return { by: 'witness', toFirst: adaptationMatrix(level(b), level(a), 'cat16'), relUncertainty: doubtOf(a, b) };
}
