import { assertSameShape, createPlane, type Mask, type Plane } from '../base/plane';
import { exposureNormalisation, type Exposure } from './exposure';

/** Linear red, green, blue on one grid. */
export interface ColourPlanes {
  readonly red: Plane;
  readonly green: Plane;
  readonly blue: Plane;
}

/** The lamp's light alone. */
export interface LampLight extends ColourPlanes {
  /** Values that came out below 0 and were set to 0, of all three channels. */
  readonly negatives: number;
}

/** Weights of linear sRGB in Y. @source IEC 61966-2-1:1999, to four decimals: enough for a share */
const luminanceWeights = [0.2126, 0.7152, 0.0722] as const;

/**
 * What the lamp-off photo's light is multiplied by to stand for the room in the lit photo:
 * (t_on N_off^2 S_on) / (t_off N_on^2 S_off).
 *
 * @throws RangeError for an impossible exposure
 * @source reflected-light meter equation, ISO 2720:1974
 * @rule LU7
 */
export function lampOffScale(on: Exposure, off: Exposure): number {
  return exposureNormalisation(off) / exposureNormalisation(on);
}

/** on - scale * off, never below 0; NaN where either is not measured. */
function subtract(on: Plane, off: Plane, scale: number): { plane: Plane; negatives: number } {
  assertSameShape(on, off);
  const plane = createPlane(on.width, on.height);
  let negatives = 0;
  for (let i = 0; i < plane.values.length; i++) {
    const light = on.values[i] - scale * off.values[i];
    if (light < 0) negatives += 1;
    plane.values[i] = light < 0 ? 0 : light;
  }
  return { plane, negatives };
}

/**
 * The lamp's light without the room's: on - scale * off in linear light, channel by channel.
 *
 * Black level and room light both go, as both are in the lamp-off photo. The two must be registered first.
 *
 * @param on     linear light of the lit photo; not altered
 * @param off    of the lamp-off photo, on the same grid; not altered
 * @param scale  see `lampOffScale`
 * @returns planes 0 or more, NaN where either photo is
 * @throws RangeError when the grids differ
 * @source light adds
 * @rule LU7
 */
export function subtractLampOff(on: ColourPlanes, off: ColourPlanes, scale: number): LampLight {
  const red = subtract(on.red, off.red, scale);
  const green = subtract(on.green, off.green, scale);
  const blue = subtract(on.blue, off.blue, scale);
  const negatives = red.negatives + green.negatives + blue.negatives;
  return { red: red.plane, green: green.plane, blue: blue.plane, negatives };
}

/** Sum of Y over the cells of a mask that are measured in both. */
function luminanceSum(planes: ColourPlanes, within: Mask, alsoMeasured: Plane): number {
  const channels = [planes.red, planes.green, planes.blue];
  let sum = 0;
  for (let i = 0; i < within.values.length; i++) {
    if (!within.values[i] || Number.isNaN(alsoMeasured.values[i])) continue;
    const luminance = channels.reduce((total, plane, c) => total + luminanceWeights[c] * plane.values[i], 0);
    if (Number.isFinite(luminance)) sum += luminance;
  }
  return sum;
}

/**
 * Room light on the glow as a share of the lamp's light: scale * Y(off) / Y(lamp), summed over the glow.
 *
 * @param lamp  what `subtractLampOff` gave
 * @param glow  cells to count, on the same grid
 * @returns 0 or more (may exceed 1); null when there is no lamp light
 * @source our own choice
 * @rule LU7
 */
export function ambientShare(lamp: ColourPlanes, off: ColourPlanes, scale: number, glow: Mask): number | null {
  assertSameShape(lamp.green, glow);
  assertSameShape(off.green, glow);
  const ofLamp = luminanceSum(lamp, glow, off.green);
  return ofLamp > 0 ? (scale * luminanceSum(off, glow, lamp.green)) / ofLamp : null;
}
