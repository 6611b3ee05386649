import { adaptXyz } from '../../colour/adapt';
import { uv1976FromXyz, xyFromUv1976, xyzFromXy, type Uv1976 } from '../../colour/chromaticity';
import { whiteD65 } from '../../colour/constants';
import { deltaE00 } from '../../colour/difference';
import { labFromXyz } from '../../colour/lab';
import { applyMatrix, type Triple } from '../../colour/matrix3';
import { uvDistance } from '../../colour/steps';
import type { ColourEntry, Reading } from '../../contract/readings';
import { figure, missing } from '../../contract/figure';
import type { LightKind } from '../../contract/light';
import { ambientDoubt, coverageFactor, roomOnColour } from '../../reading/uncertainty';
import { anyWay, curveDoubt, directionTo, spectralDoubt } from '../colour-difference';
import { colourToReferenceWords } from './colour-words';
import type { PhotoPair } from './photo-pair';

/** Both colours at this luminance, the reference's glow at 1 as white. */
const comparedAtY = 0.5;
/** What a relative doubt of one of a patch's cone responses (CAT16) does in u'v' at 2400 K. @source own calculation: 0.35, 0.35, 0.03 */
const patchOnUv = 0.35;
/** White balance that the camera chose for itself, or does not tell: u'v', k = 1. @source our own choice */
const whiteBalanceDoubt = { auto: 0.02, unknown: 0.01 } as const;
/** White light that a file cuts short: as for the light that cameras show worst. @source our own choice @rule RF4 */
const outOfGamutDoubt = 0.0285;
/** Light that lies outside sRGB by itself: its camera doubt was found with sRGB files, cut short as these are. @rule RF4 */
const deepLights: readonly LightKind[] = ['phosphor-amber', 'narrow-amber', 'red', 'red+green', 'red+yellow-green'];
/**
 * How far a file in sRGB moves what it cuts short, u'v'. The distance's doubt has it already; CIEDE2000 sees the missing blue more.
 *
 * @source own calculation: 0.0075 to 0.0131 for the lamp samples' mixed and amber light
 * @rule RF5
 */
const cutOnUv = 0.0125;

const d65Xyz = xyzFromXy(whiteD65);

const xyzOf = (uv: Uv1976, y: number): Triple => xyzFromXy(xyFromUv1976(uv), y);

function uvOf({ colour }: Pick<Reading, 'colour'>): Uv1976 | null {
  const { uPrime, vPrime } = colour;
  return uPrime.value === null || vPrime.value === null ? null : { uPrime: uPrime.value, vPrime: vPrime.value };
}

/**
 * CIEDE2000 of two colours at equal luminance, the second one's glow as white, carried to D65 by CAT16.
 *
 * @source Sharma et al. 2005; Li et al. 2017; the luminances are our own choice
 * @rule RF5
 */
export function deltaE00ToGlow(of: Uv1976, glow: Uv1976): number {
  const white = xyzOf(glow, 1);
  const lab = (uv: Uv1976): Triple => labFromXyz(adaptXyz(xyzOf(uv, comparedAtY), white, d65Xyz, 'cat16'), d65Xyz);
  return deltaE00(lab(of), lab(glow));
}

/** What the doubt of the distance, shared out over both axes, does to the difference: both sides' mean, as it has a corner at 0. */
function deltaE00Uncertainty(of: Uv1976, glow: Uv1976, doubt: number): number {
  const at = deltaE00ToGlow(of, glow);
  const change = (du: number, dv: number): number =>
    Math.abs(deltaE00ToGlow({ uPrime: of.uPrime + du, vPrime: of.vPrime + dv }, glow) - at);
  const side = doubt / Math.SQRT2;
  return Math.hypot((change(side, 0) + change(-side, 0)) / 2, (change(0, side) + change(0, -side)) / 2);
}

/** Standard uncertainty (k = 1) of the distance. */
function distanceDoubt(pair: PhotoPair, from: Uv1976, to: Uv1976): number {
  const { trial, reference, colourTie } = pair;
  const [own, base] = [trial.facts.basis, reference.facts.basis];
  const isAuto = [own, base].some(({ whiteBalance }) => whiteBalance === 'auto');
  const tied = { settings: 0, witness: colourTie.by === 'witness' ? patchOnUv * colourTie.relUncertainty : 0 };
  const isCut = [trial, reference].some(
    ({ reading, facts }) => reading.colour.outOfGamut && !deepLights.includes(facts.basis.light),
  );
  return Math.hypot(
    Math.max(spectralDoubt(own.light, base.light), isCut ? outOfGamutDoubt : 0),
    colourTie.by === null ? whiteBalanceDoubt[isAuto ? 'auto' : 'unknown'] : tied[colourTie.by],
    curveDoubt(trial, reference, pair.rho, directionTo(to, from) ?? anyWay),
    roomOnColour * Math.hypot(ambientDoubt(own), ambientDoubt(base)),
  );
}

/**
 * Distance of the glow's colour from the reference's in u'v', its CIEDE2000, and what a camera can certify of it.
 *
 * Plus-minus: the camera under the stated light, white balance (0 when it is the same, 0.02 automatic, 0.01 untold), what tone
 * curves shift the two colours apart by, room light. None when white balance or lens differ and no witness patch ties them.
 *
 * @source CIE 015:2018; CIEDE2000: see `deltaE00ToGlow`; camera: see `spectralDoubt`; JCGM 100
 * @rule RF4, RF5
 */
export function colourAgainst(pair: PhotoPair): ColourEntry {
  const { trial, reference, colourTie } = pair;
  const entry = trial.reading.colour;
  const none = (reason: string): ColourEntry => ({
    ...entry,
    toReferenceUv: missing(reason),
    toReferenceDeltaE00: missing(reason),
  });
  const [own, base] = [uvOf(trial.reading), uvOf(reference.reading)];
  if (!own) return none(entry.uPrime.reason ?? 'not measured');
  if (!base) return none(`the reference: ${reference.reading.colour.uPrime.reason ?? 'not measured'}`);
  if (pair.isSelf) return { ...entry, toReferenceUv: figure(0, 0), toReferenceDeltaE00: figure(0, 0) };
  if (colourTie.by === null && colourTie.verdict === 'differs') return none(colourTie.reason);
  const moved = colourTie.by === 'witness' ? uv1976FromXyz(applyMatrix(colourTie.toFirst, xyzOf(own, 1))) : own;
  const distance = uvDistance(moved, base);
  const doubt = distanceDoubt(pair, base, moved);
  const plusMinus = coverageFactor * doubt;
  const outOfGamut = [entry.outOfGamut, reference.reading.colour.outOfGamut] as const;
  const seen = Math.hypot(doubt, outOfGamut.some(Boolean) ? cutOnUv : 0);
  return {
    ...entry,
    toReferenceUv: figure(distance, plusMinus),
    toReferenceDeltaE00: figure(deltaE00ToGlow(moved, base), coverageFactor * deltaE00Uncertainty(moved, base, seen)),
    verdict: colourToReferenceWords({
      of: moved,
      reference: base,
      plusMinus,
      lights: [trial.facts.basis.light, reference.facts.basis.light],
      outOfGamut,
    }),
  };
}
