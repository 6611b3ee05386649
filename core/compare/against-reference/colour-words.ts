import { uv1976FromXy, type Uv1976 } from '../../colour/chromaticity';
import { whiteD65 } from '../../colour/constants';
import { bandFromSteps, stepsFromUvDistance, uvDistance } from '../../colour/steps';
import type { LightKind } from '../../contract/light';

export interface ColourToReference {
  readonly of: Uv1976;
  readonly reference: Uv1976;
  /** Of their distance, k = 2. */
  readonly plusMinus: number;
  /** As stated: the trial's and the reference's. */
  readonly lights: readonly [LightKind, LightKind];
  /** The trial's glow and the reference's outside their file's colour space. */
  readonly outOfGamut: readonly [boolean, boolean];
}

const bandWords = {
  same: "the filament's colour",
  close: "close to the filament's colour",
  visible: "beside the filament's colour the difference shows",
  different: 'another colour than the filament',
} as const;

/** Light whose colour a camera shows well enough for a distance, though not for steps. */
const whites: readonly LightKind[] = ['warm-white', 'cool-white', 'phosphor-amber'];

/**
 * Where a colour lies from the reference's, as far as it exceeds the plus-minus. A colour that its file cut short is not called the
 * less saturated one.
 */
function directions({ of, reference, plusMinus, outOfGamut }: ColourToReference): string {
  const white = uv1976FromXy(whiteD65);
  const red = of.uPrime - reference.uPrime;
  const saturated = uvDistance(of, white) - uvDistance(reference, white);
  const isCut = saturated > 0 ? outOfGamut[1] : outOfGamut[0];
  return [
    ...(Math.abs(red) > plusMinus ? [red > 0 ? 'redder' : 'greener'] : []),
    ...(Math.abs(saturated) > plusMinus && !isCut ? [saturated > 0 ? 'more saturated' : 'less saturated'] : []),
  ].join(' and ');
}

/**
 * The colour beside the filament's in words. Steps are named only where both lights are filaments: of white LEDs a camera
 * cannot certify fewer than 10, of light of one or two colours none at all. Outside the file's colour space no distance is claimed.
 *
 * @source bands CO11; what a camera can certify: 32 published cameras, our own simulation
 * @rule RF6
 */
export function colourToReferenceWords(given: ColourToReference): string {
  const apart = directions(given);
  const where = apart === '' ? 'not told apart from the filament' : `${apart} than the filament`;
  // The file cuts saturation short, but a camera may exaggerate the distance: that is no lower bound.
  if (given.outOfGamut.some(Boolean)) return `${where}; the glow lies outside the photo's colour space`;
  if (given.lights.every((light) => light === 'filament')) {
    const steps = stepsFromUvDistance(uvDistance(given.of, given.reference));
    return `${bandWords[bandFromSteps(steps)]}, about ${Math.round(steps)} ${Math.round(steps) === 1 ? 'step' : 'steps'}`;
  }
  return given.lights.some((light) => whites.includes(light)) ? `${where}; not certifiable below 10 steps` : where;
}
