import type { LightKind } from '../contract/light';
import type { Figure } from '../contract/figure';
import { figure, missing } from '../contract/figure';
import { completeExposure } from '../photo/exposure-of';
import { exposureNormalisation } from '../photo/exposure';
import { tieLuminance, type LuminanceTie } from '../preparation/comparable';
import { ambientDoubt, coverageFactor, exponentSpread, responseDoubt } from '../reading/uncertainty';
import type { ComparedWindow } from './compared-window';

/**
 * What a camera's spectral sensitivities do to the luminance of a light, relative to a filament's, one standard deviation.
 *
 * @source the published sensitivities of 32 cameras, simulated for each kind of light (our own experiment): median and scatter
 * @rule PR5
 */
const cameraOnLuminance: Readonly<Record<LightKind, number>> = {
  filament: 0.01,
  'warm-white': 0.04,
  'cool-white': 0.05,
  'phosphor-amber': 0.05,
  'narrow-amber': 0.06,
  'red+yellow-green': 0.12,
  'red+green': 0.16,
  red: 0.16,
  unknown: 0.16,
};

/** Two lights of one stated kind are mismeasured alike; of two kinds, each in its own way. */
function spectralDoubt(a: LightKind, b: LightKind): number {
  return a === b && a !== 'unknown' ? 0 : Math.hypot(cameraOnLuminance[a], cameraOnLuminance[b]);
}

/** Mean of the glow as the photo has it, 1 = full scale; null when it has none. */
function levelOf({ reading, facts }: ComparedWindow): number | null {
  const mean = reading.luminance.glowMean.value;
  if (mean === null || !(mean > 0)) return null;
  const exposure = completeExposure(facts.camera);
  return exposure ? mean / exposureNormalisation(exposure) : mean;
}

/** Doubt of a ratio that does not come from its exposures: tone curve, room light, clipping, spectral sensitivities. */
function ratioDoubt(a: ComparedWindow, b: ComparedWindow, levels: readonly [number, number]): number {
  const [ofA, ofB] = [a.facts.basis, b.facts.basis];
  const curve =
    Math.max(responseDoubt(ofA), responseDoubt(ofB)) * exponentSpread * Math.abs(Math.log(levels[1] / levels[0]));
  const room = Math.hypot(ambientDoubt(ofA), ambientDoubt(ofB));
  return Math.hypot(curve, room, ofA.clippedShare, ofB.clippedShare, spectralDoubt(ofA.light, ofB.light));
}

/** Why one of two has no light to compare, by the name of its trial or its window. */
function noLight(windows: readonly ComparedWindow[], by: 'name' | 'window'): string {
  const without = windows.find((one) => levelOf(one) === null) ?? windows[0];
  return `${without.reading[by]}: ${without.reading.luminance.glowMean.reason ?? 'there is no light'}`;
}

/** Exposures tie photos of one camera only: each rates its ISO and draws its curve in its own way. */
function tieOf(a: ComparedWindow, b: ComparedWindow): LuminanceTie {
  const [cameraA, cameraB] = [a, b].map(({ facts }) => facts.camera);
  const isOther = (['make', 'model'] as const).some(
    (key) => cameraA[key] !== undefined && cameraB[key] !== undefined && cameraA[key] !== cameraB[key],
  );
  const untold = { whiteBalance: 'unknown' } as const;
  const tie = tieLuminance(
    { camera: isOther ? untold : cameraA, witness: a.witness },
    { camera: isOther ? untold : cameraB, witness: b.witness },
  );
  if (!isOther || tie.by !== null) return tie;
  return { by: null, reason: 'the photos are from different cameras, and no witness patch is in both' };
}

/**
 * How much brighter one glow is than another, in two photos: ln(b / a). Their exposures tie them, else a witness patch.
 *
 * @returns ln units, k = 2; null with the reason when nothing ties the photos
 * @source exposures and decoding LU11; tone curve: exponent 1 +- 0.1 on the ratio of the levels in the photos (UN2); JCGM 100
 * @rule PR5
 */
export function luminanceDifference(a: ComparedWindow, b: ComparedWindow): Figure {
  const [levelA, levelB] = [levelOf(a), levelOf(b)];
  if (levelA === null || levelB === null) return missing(noLight([a, b], 'name'));
  const tie = tieOf(a, b);
  if (tie.by === null) return missing(tie.reason);
  const uncertainty = Math.hypot(tie.relUncertainty, hiddenDoubt(a, b), ratioDoubt(a, b, [levelA, levelB]));
  return figure(Math.log((levelB * tie.scale) / levelA), coverageFactor * uncertainty);
}

/** Light that a corrected or stopped-down lens loses in the corner of the frame, one standard deviation. @source our own choice */
const cornerLoss = 0.04;

/** Square of a window's distance from the middle of the frame, 1 in the corner. */
function offCentre({ reading }: ComparedWindow): number {
  const [{ widthPx, heightPx }] = reading.photos;
  const { cornersPx } = reading.outline;
  const [x, y] = [0, 1].map((axis) => cornersPx.reduce((sum, corner) => sum + corner[axis], 0) / cornersPx.length);
  return ((x - widthPx / 2) ** 2 + (y - heightPx / 2) ** 2) / ((widthPx / 2) ** 2 + (heightPx / 2) ** 2);
}

/** Print that is denser where the light is stronger leans a mean: by so much of its share, one standard deviation. @source our own choice */
const leanOfHidden = 0.05;

/** Two trials of one window are hidden alike, two windows each in its own way. */
function hiddenDoubt(a: ComparedWindow, b: ComparedWindow): number {
  if (a.reading.window === b.reading.window) return 0;
  return leanOfHidden * Math.hypot(a.facts.basis.printShare, b.facts.basis.printShare);
}

/** Noise of the means and what print leaves, relative, one standard deviation. @source our own choice */
const baseDoubt = 0.01;

/** Too dark for figures of its own: its lamp is off. @rule PR8 */
export function isTooDark({ reading }: ComparedWindow): boolean {
  return reading.gates.some(({ code, level }) => code === 'PHOTO_TOO_DARK' && level === 'refuse');
}

/** Beside a lit window a dark one has a level, too, which tells how much leaks into it. */
function levelBeside(window: ComparedWindow): number | null {
  const level = isTooDark(window) ? window.facts.level : levelOf(window);
  return level !== null && level > 0 ? level : null;
}

/** A camera's black, as a share of full scale, one standard deviation. @source our own choice */
const blackDoubt = 0.0005;

/** Room light and black in the dimmer window, relative to its light: nothing beside its own lamp, much without. */
function darkDoubt(a: ComparedWindow, b: ComparedWindow, levels: readonly [number, number]): number {
  const [dim, bright] = [Math.min(...levels), Math.max(...levels)];
  const room = Math.max(ambientDoubt(a.facts.basis), ambientDoubt(b.facts.basis)) * bright;
  return (Math.hypot(room, blackDoubt) * (1 - dim / bright)) / dim;
}

/**
 * How much brighter one glow is than another in the same photo: ln(b / a). Exposure, camera and room light are the same.
 *
 * @returns ln units, k = 2; null with the reason when one has no light
 * @source tone curve: exponent 1 +- 0.1 (UN2); the lens's corners: 4 % by the square of the distance from the middle, our own choice
 * @rule PR8
 */
export function luminanceDifferenceInPhoto(a: ComparedWindow, b: ComparedWindow): Figure {
  const [levelA, levelB] = [levelBeside(a), levelBeside(b)];
  if (levelA === null || levelB === null) return missing(noLight([a, b], 'window'));
  const isFlat = a.facts.basis.viewShare === 0 && b.facts.basis.viewShare === 0;
  const corners = isFlat ? 0 : cornerLoss * Math.abs(offCentre(a) - offCentre(b));
  const dark = darkDoubt(a, b, [levelA, levelB]);
  const uncertainty = Math.hypot(baseDoubt, corners, hiddenDoubt(a, b), dark, ratioDoubt(a, b, [levelA, levelB]));
  return figure(Math.log(levelB / levelA), coverageFactor * uncertainty);
}
