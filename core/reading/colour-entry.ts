import { uv1976FromXyz, xyFromUv1976, type Uv1976 } from '../colour/chromaticity';
import { xyzFromLinearSrgb } from '../colour/spaces';
import { colourTemperatureOf } from '../colour/temperature';
import type { ComparableFacts } from '../contract/comparable';
import { figure, missing, noReference, type Figure } from '../contract/figure';
import type { ColourEntry } from '../contract/readings';
import { colourFigures, type ColourFigures } from './colour-figures';
import type { GlowMap } from './glow-map';
import { glowValues } from './luminance';
import {
  chromaticityUncertainty,
  coverageFactor,
  exponentSpread,
  responseDoubt,
  type UncertaintyBasis,
} from './uncertainty';
import { colourWords } from './words';

export interface ColourInput {
  readonly map: GlowMap;
  readonly basis: UncertaintyBasis;
  /** Why no figure of colour may be given; null when they may. */
  readonly refusal: string | null;
  readonly outOfGamut: boolean;
}

function refusedEntry(reason: string, outOfGamut: boolean): ColourEntry {
  const none = missing(reason);
  return {
    x: none,
    y: none,
    uPrime: none,
    vPrime: none,
    cctK: none,
    duv: none,
    spreadUv: none,
    gradientUvPer10Mm: none,
    toReferenceUv: missing(noReference),
    toReferenceDeltaE00: missing(noReference),
    outOfGamut,
    verdict: `no verdict: ${reason}`,
  };
}

/**
 * How far u' and v' move when every channel's light is raised to the power 1.1 about the brightest channel: what an unknown tone
 * curve does to a colour.
 *
 * @source our own choice: the exponent that stands for an unknown curve, see `exponentSpread`
 * @rule UN4
 */
export function curveShift(map: GlowMap, at: Uv1976): { u: number; v: number } {
  const mean = [map.red, map.green, map.blue].map((plane) => {
    const values = glowValues(plane, map.glow);
    return values.reduce((sum, value) => sum + value, 0) / values.length;
  });
  const brightest = Math.max(...mean);
  const [red, green, blue] = mean.map((value) => Math.pow(Math.max(value, 0) / brightest, 1 + exponentSpread));
  const moved = uv1976FromXyz(xyzFromLinearSrgb([red, green, blue]));
  return { u: moved.uPrime - at.uPrime, v: moved.vPrime - at.vPrime };
}

/** The same at the doubt about this photo's curve. */
function doubtedShift(map: GlowMap, at: Uv1976, basis: UncertaintyBasis): { u: number; v: number } {
  const shift = curveShift(map, at);
  const doubt = responseDoubt(basis);
  return { u: doubt * shift.u, v: doubt * shift.v };
}

/** Standard uncertainties of the chromaticity, along u' and v'. */
function uncertaintiesOf(shift: { u: number; v: number }, basis: UncertaintyBasis): { u: number; v: number } {
  const camera = chromaticityUncertainty(basis);
  return { u: Math.hypot(camera, shift.u), v: Math.hypot(camera, shift.v) };
}

/** Largest of what a quantity of the chromaticity changes by when u' or v' moves by its uncertainty, root of the squares. */
function propagated(at: Uv1976, by: { u: number; v: number }, quantity: (uv: Uv1976) => number | null): number | null {
  // Out to the ends of the printed plus-minus: a figure that has no meaning there is not given.
  const change = (du: number, dv: number): number | null => {
    const low = quantity({ uPrime: at.uPrime - coverageFactor * du, vPrime: at.vPrime - coverageFactor * dv });
    const high = quantity({ uPrime: at.uPrime + coverageFactor * du, vPrime: at.vPrime + coverageFactor * dv });
    return low === null || high === null ? null : Math.abs(high - low) / (2 * coverageFactor);
  };
  const alongU = change(by.u, 0);
  const alongV = change(0, by.v);
  return alongU === null || alongV === null ? null : Math.hypot(alongU, alongV);
}

/**
 * A tone curve turns unevenness of light into a spread of colour: 0.0016 in u'v' for an unknown one. Noise only adds to a spread.
 *
 * @source our own choice, from rendered photos with truth
 * @rule UN4
 */
function spreadUncertainty(spread: number, basis: UncertaintyBasis): number {
  return Math.hypot(0.0003, 0.1 * spread, 0.0016 * responseDoubt(basis), 0.02 * basis.cellNoise);
}

/** Over the whole window noise and the curve average out. @source as for the spread @rule UN4 */
function gradientUncertainty(gradient: number, basis: UncertaintyBasis): number {
  return Math.hypot(0.00007, 0.1 * gradient, 0.00015 * responseDoubt(basis));
}

function temperatureFigures(colour: ColourFigures, uv: Uv1976, u: { u: number; v: number }) {
  const cctUncertainty = propagated(uv, u, (moved) => colourTemperatureOf(moved)?.cctK ?? null);
  const duvUncertainty = propagated(uv, u, (moved) => colourTemperatureOf(moved)?.duv ?? null);
  const far = 'the colour is too far from that of a glowing body to have a colour temperature';
  const unsure = 'the plus-minus of the colour is too wide for a colour temperature';
  const cctK: Figure =
    colour.cctK === null
      ? missing(far)
      : cctUncertainty === null
        ? missing(unsure)
        : figure(colour.cctK, coverageFactor * cctUncertainty);
  const duv: Figure =
    colour.duv === null || duvUncertainty === null ? missing(far) : figure(colour.duv, coverageFactor * duvUncertainty);
  return { cctK, duv };
}

/**
 * Every figure of colour with its plus-minus, or the reason why there are none. Of the glow, not of the lamp.
 *
 * @returns the contract's entry, and what the tone curve may have moved it by (without figures: null)
 * @rule RD5
 */
export function colourEntry({ map, basis, refusal, outOfGamut }: ColourInput): {
  entry: ColourEntry;
  curveShift: ComparableFacts['curveShift'];
} {
  if (refusal !== null) return { entry: refusedEntry(refusal, outOfGamut), curveShift: null };
  const colour = colourFigures(map);
  if (!colour) return { entry: refusedEntry('there is no light in the glow', outOfGamut), curveShift: null };
  const uv = uv1976FromXyz(colour.xyz);
  const shift = doubtedShift(map, uv, basis);
  const u = uncertaintiesOf(shift, basis);
  const along = (component: 'x' | 'y'): number => propagated(uv, u, (moved) => xyFromUv1976(moved)[component]) ?? 0;
  const { x, y } = xyFromUv1976(uv);
  const tooSmall = 'the glow is too small to see a change of colour over it';
  const given = (value: number | null, uncertainty: (value: number, basis: UncertaintyBasis) => number): Figure =>
    value === null ? missing(tooSmall) : figure(value, coverageFactor * uncertainty(value, basis));
  const beyond = missing("the glow lies outside the photo's colour space, so its temperature is not known");
  const temperature = outOfGamut ? { cctK: beyond, duv: beyond } : temperatureFigures(colour, uv, u);
  const entry: ColourEntry = {
    x: figure(x, coverageFactor * along('x')),
    y: figure(y, coverageFactor * along('y')),
    uPrime: figure(uv.uPrime, coverageFactor * u.u),
    vPrime: figure(uv.vPrime, coverageFactor * u.v),
    ...temperature,
    spreadUv: given(colour.spreadUv, spreadUncertainty),
    gradientUvPer10Mm: given(colour.gradientUvPer10Mm, gradientUncertainty),
    toReferenceUv: missing(noReference),
    toReferenceDeltaE00: missing(noReference),
    outOfGamut,
    verdict: colourWords({
      cctK: temperature.cctK.value,
      duv: colour.duv,
      isTooUnsure: colour.cctK !== null,
      outOfGamut,
    }),
  };
  return { entry, curveShift: shift };
}
