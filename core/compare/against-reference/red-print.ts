import type { RedPrintEntry } from '../../contract/readings';
import { figure, missing, type Figure } from '../../contract/figure';
import type { LightKind } from '../../contract/light';
import { overlookedRoom, redIndexWords } from '../../reading/red-index';
import { coverageFactor } from '../../reading/uncertainty';
import type { ComparedWindow } from '../compared-window';
import { differenceUncertainty } from '../pairs';
import type { PhotoPair } from './photo-pair';

/**
 * What a camera's spectral sensitivities do to the index against a filament: a share of it, and points.
 *
 * @source the published sensitivities of 32 cameras, simulated for each kind of light (our own experiment)
 * @rule RP12
 */
const cameraOnIndex: Readonly<Record<LightKind, { readonly share: number; readonly points: number }>> = {
  filament: { share: 0.04, points: 0 },
  'warm-white': { share: 0.08, points: 0 },
  'cool-white': { share: 0.1, points: 0 },
  'phosphor-amber': { share: 0.09, points: 0 },
  'red+green': { share: 0.25, points: 0 },
  'red+yellow-green': { share: 0.25, points: 0 },
  'narrow-amber': { share: 0, points: 3 },
  red: { share: 0, points: 3 },
  unknown: { share: 0.25, points: 3 },
};

/** And to the contrast kept, a share of it: the same experiment gave 0.94 to 1.10 of the truth. */
const cameraOnKept: Readonly<Record<LightKind, number>> = {
  filament: 0.02,
  'warm-white': 0.05,
  'cool-white': 0.05,
  'phosphor-amber': 0.05,
  'red+green': 0.08,
  'red+yellow-green': 0.08,
  'narrow-amber': 0.05,
  red: 0.08,
  unknown: 0.08,
};

/** Redness of a reference below which an index says nothing. */
const leastRedness = 0.05;
/** Another camera is wrong about the reference in its own way. @source 32 cameras: 0.79 to 1.07 of the truth (our own experiment) */
const otherCamera = 0.07;
/** Blur takes redness away, and does not cancel between windows of different size. @source our own choice, after rendered JPEGs */
const otherScale = 0.08;
/** Contrast kept from which a mark that is no longer red is still seen, per cent. @source our own choice */
const stillSeen = 50;
/** Redness and contrast that are just seen, see RP4. */
const just = { redness: 0.01, contrast: 0.02 } as const;

/** Ratio of two values, in per cent, with the doubts of both: a tone curve that they share cancels. */
function percentOf(
  [of, against]: readonly [number, number],
  doubts: readonly [{ toneCurve: number; others: number }, { toneCurve: number; others: number }],
  rho: number,
): { value: number; uncertainty: number } {
  const [scale, back] = [100 / against, (100 * of) / against ** 2];
  const curve = differenceUncertainty(scale * doubts[0].toneCurve, back * doubts[1].toneCurve, rho);
  const others = Math.hypot(scale * doubts[0].others, back * doubts[1].others);
  return { value: (100 * of) / against, uncertainty: Math.hypot(curve, others) };
}

/** Redness that room light nobody noticed may add. */
function overlookedIn({ facts: { basis } }: ComparedWindow): number {
  return basis.ambientShare === null ? overlookedRoom[basis.room] : 0;
}

function wordsOf(index: number, kept: number): string {
  const words = redIndexWords(index, 'reference');
  if (words !== 'red lost') return words;
  return kept >= stillSeen ? 'red lost, still seen as a dark mark' : 'red lost, and the mark all but vanishes';
}

function withoutReference(entry: RedPrintEntry, reason: string): RedPrintEntry {
  return { ...entry, darkContrastKept: missing(reason), visibilityRatio: missing(reason) };
}

/** The reference's own: what the others are measured against. */
function ownOf(entry: RedPrintEntry): RedPrintEntry {
  const whole = figure(100, 0);
  return {
    ...entry,
    index: whole,
    indexAgainst: 'reference',
    darkContrastKept: whole,
    visibilityRatio: figure(1, 0),
    words: 'the red that the others are measured against',
  };
}

/**
 * The red print beside the filament's: index 100 R / R_ref (0 or more), contrast kept 100 C / C_ref, visibility V / V_ref.
 *
 * Plus-minus of the index: the camera under this light; both photos' doubts of R without the camera's, the tone curve's
 * cancelling as far as the photos are alike; room light nobody noticed; 7 % for another camera, 8 % where the window is more
 * than a fifth larger in one photo. Under a redness of 0.05 in the reference there is no index, and the one against a typical
 * lamp stays.
 *
 * @returns the trial's entry; the reference's own when the pair is one reading
 * @source definition: our own choice; JCGM 100 for the sum; parts at the constants
 * @rule RP12
 */
export function redPrintAgainst(pair: PhotoPair): RedPrintEntry {
  const { trial, reference, rho } = pair;
  const [own, base] = [trial.reading.redPrint, reference.reading.redPrint];
  const [facts, baseFacts] = [trial.facts.redPrint, reference.facts.redPrint];
  const [r, rBase] = [own.redness.value, base.redness.value];
  const [c, cBase] = [own.luminanceContrast.value, base.luminanceContrast.value];
  if (!facts || r === null || c === null) return withoutReference(own, own.redness.reason ?? 'not measured');
  if (!baseFacts || rBase === null || cBase === null) {
    return withoutReference(own, `the reference: ${base.redness.reason ?? 'not measured'}`);
  }
  if (rBase < leastRedness) {
    return withoutReference(own, `the print is hardly red in the reference itself (redness ${rBase.toFixed(2)})`);
  }
  if (pair.isSelf) return ownOf(own);
  const { light } = trial.facts.basis;
  const baseLight = reference.facts.basis.light;
  const [camera, baseCamera] = [cameraOnIndex[light], cameraOnIndex[baseLight]];
  const index = percentOf([Math.max(0, r), rBase], [facts.redness, baseFacts.redness], rho);
  const share = Math.hypot(
    camera.share,
    baseLight === 'filament' ? 0 : baseCamera.share,
    pair.isOtherCamera ? otherCamera : 0,
    pair.isOtherScale ? otherScale : 0,
  );
  const overlooked = Math.hypot(overlookedIn(trial), (overlookedIn(reference) * index.value) / 100) / rBase;
  const uIndex = Math.hypot(index.uncertainty, share * index.value, camera.points, 100 * overlooked);
  const kept = percentOf([c, cBase], [facts.luminanceContrast, baseFacts.luminanceContrast], rho);
  const uKept = Math.hypot(kept.uncertainty, cameraOnKept[light] * kept.value);
  const [dR, dC] = [(uIndex * rBase) / 100, (uKept * Math.abs(cBase)) / 100];
  const { visibility, widthFactor: a } = facts;
  const uVisibility = Math.hypot((a / just.redness) ** 2 * r * dR, (c * dC) / just.contrast ** 2) / (visibility || 1);
  const given = (value: number, uncertainty: number): Figure => figure(value, coverageFactor * Math.abs(uncertainty));
  return {
    ...own,
    index: given(index.value, uIndex),
    indexAgainst: 'reference',
    darkContrastKept: given(kept.value, uKept),
    visibilityRatio: given(visibility / baseFacts.visibility, uVisibility / baseFacts.visibility),
    words: wordsOf(index.value, kept.value),
  };
}
