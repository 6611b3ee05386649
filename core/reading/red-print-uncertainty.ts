import { xyzFromLinearSrgb, linearSrgbFromXyz } from '../colour/spaces';
import type { Triple } from '../colour/matrix3';
import type { SplitDoubt } from '../contract/comparable';
import type { LightKind, RoomKind } from '../contract/light';
import { weberContrast } from './contrast';
import type { RedPrintFigures } from './red-print';
import { rednessOf } from './red-print-formulas';
import { exponentSpread, responseDoubt, subtractionDoubt, type UncertaintyBasis } from './uncertainty';

/** Standard uncertainties (k = 1) of the figures of red print. */
export interface RedPrintUncertainty {
  readonly redness: number;
  readonly luminanceContrast: number;
  /** CIEDE2000 of the core against the glow. */
  readonly deltaE00: number;
  /** In units of what is just seen. */
  readonly visibility: number;
  /** Of redness and contrast without the camera's spectral share. */
  readonly beyondCamera: { readonly redness: SplitDoubt; readonly luminanceContrast: SplitDoubt };
}

/** What a camera's spectral sensitivities do to redness: a share of it, and an amount. */
const cameraOnRedness: Record<LightKind, { readonly share: number; readonly amount: number }> = {
  filament: { share: 0.07, amount: 0 },
  'warm-white': { share: 0.07, amount: 0 },
  'phosphor-amber': { share: 0.08, amount: 0 },
  'cool-white': { share: 0.09, amount: 0 },
  'red+green': { share: 0.24, amount: 0 },
  'red+yellow-green': { share: 0.24, amount: 0 },
  'narrow-amber': { share: 0, amount: 0.0045 },
  red: { share: 0, amount: 0.0045 },
  unknown: { share: 0.24, amount: 0.0045 },
};

/** And to the luminance contrast: a share of it. */
const cameraOnContrast: Record<LightKind, number> = {
  filament: 0.08,
  'warm-white': 0.08,
  'phosphor-amber': 0.08,
  'cool-white': 0.08,
  'red+green': 0.1,
  'red+yellow-green': 0.1,
  'narrow-amber': 0.08,
  red: 0.1,
  unknown: 0.1,
};

/** Room light that print throws back itself, as a share of the lamp's light on the glow, one standard deviation. */
const roomShare: Record<RoomKind, number> = { dark: 0.01, unknown: 0.05, lit: 0.2 };
/** Redness that red print has under room light, less what it has behind the lamp: per share of room light. */
const rednessOfRoom = 0.17;

/** Colours as they would be had the camera's curve been steeper: channels to the power 1.1 about the glow's brightest. */
function withSteeperCurve(xyz: Triple, glowXyz: Triple): Triple {
  const peak = Math.max(...linearSrgbFromXyz(glowXyz));
  const steeper = (light: number): number => peak * Math.pow(Math.max(light, 0) / peak, 1 + exponentSpread);
  const [red, green, blue] = linearSrgbFromXyz(xyz);
  return xyzFromLinearSrgb([steeper(red), steeper(green), steeper(blue)]);
}

const root = (...parts: number[]): number => Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));

/**
 * Standard uncertainty (k = 1) of redness, luminance contrast, colour difference and visibility of the red print.
 *
 * redness: camera (7 to 24 % of it, or 0.0045 under light of one colour), tone curve (both colours to the power 1.1, times the
 * doubt about the response), room light 0.17 a, mask and core 3 %, and half of what the fill factor added.
 * contrast: camera 8 to 10 %, tone curve likewise, room light a |C|, mask 2 %, half of (1 / fill - 1).
 * a = what a subtraction leaves (UN9), else 1 % in a dark room, 5 % in an unknown, 20 % in a lit one.
 * The colour difference has the larger of both shares.
 *
 * @source JCGM 100 for the sum; camera on redness: published sensitivities of 32 cameras, simulated for each kind of light (our
 *         own experiment); on contrast that experiment gave 5 %, widened to 8 % since the samples' invented everyday camera is
 *         off by 11 %; the rest our own choice, from rendered photos with truth
 * @rule RP8
 */
export function redPrintUncertainty(figures: RedPrintFigures, basis: UncertaintyBasis): RedPrintUncertainty {
  const { markXyz, glowXyz, fillFactor, redness: r, luminanceContrast: c, widthFactor: a } = figures;
  const doubt = responseDoubt(basis);
  const [mark, glow] = [withSteeperCurve(markXyz, glowXyz), withSteeperCurve(glowXyz, glowXyz)];
  const room = basis.ambientShare === null ? roomShare[basis.room] : subtractionDoubt(basis.ambientShare, basis);
  const camera = cameraOnRedness[basis.light];
  const widened = (1 / fillFactor - 1) / 2;
  const curveOnRedness = doubt * (rednessOf(mark, glow) / fillFactor - r);
  const ofRedness = { toneCurve: curveOnRedness, others: root(rednessOfRoom * room, 0.03 * r, widened * r) };
  const redness = root(camera.share * r, camera.amount, ofRedness.toneCurve, ofRedness.others);
  const curveOnContrast = doubt * (weberContrast(mark[1], glow[1]) - c);
  const ofContrast = { toneCurve: curveOnContrast, others: root(room * c, 0.02 * c, widened * c) };
  const luminanceContrast = root(cameraOnContrast[basis.light] * c, ofContrast.toneCurve, ofContrast.others);
  const share = (uncertainty: number, value: number): number => (value === 0 ? 0 : Math.abs(uncertainty / value));
  const [colourPart, lightPart] = [(a / 0.01) ** 2 * r * redness, (c * luminanceContrast) / 0.02 ** 2];
  return {
    redness,
    luminanceContrast,
    deltaE00: figures.deltaE00 * Math.max(share(redness, r), share(luminanceContrast, c)),
    visibility: figures.visibility === 0 ? 0 : root(colourPart, lightPart) / figures.visibility,
    beyondCamera: { redness: ofRedness, luminanceContrast: ofContrast },
  };
}
