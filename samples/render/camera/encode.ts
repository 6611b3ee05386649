import type { Xyz } from '../light/spectra';
import type { Camera, Response } from './settings';

/** sRGB transfer curve, IEC 61966-2-1, for 0..1. */
export function srgbCurve(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * Math.pow(linear, 1 / 2.4) - 0.055;
}

/** Rows from linear sRGB to linear RGB with the primaries of P3 and the white of D65. */
const wideFromSrgb: readonly Xyz[] = [
  [0.8224619687, 0.1775380313, 0],
  [0.0331941989, 0.9668058011, 0],
  [0.0170826307, 0.0723974407, 0.9105199286],
];

/** Code value 0..1 of a linear channel value; what lies outside is clipped. */
export function codeOf(response: Response, linear: number): number {
  const clipped = Math.min(1, Math.max(0, linear));
  if (response.kind === 'linear') return clipped;
  const code = srgbCurve(clipped);
  if (response.kind === 'srgb') return code;
  return code * code * (3 - 2 * code) * response.strength + code * (1 - response.strength);
}

const asItIs: readonly Xyz[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Interleaved RGB codes, 0..255 or 0..65535. */
export function codesOf(
  channels: readonly [Float64Array, Float64Array, Float64Array],
  camera: Camera,
  bits: 8 | 16,
): Uint8Array | Uint16Array {
  const count = channels[0].length;
  const fullScale = bits === 8 ? 255 : 65535;
  const codes = bits === 8 ? new Uint8Array(3 * count) : new Uint16Array(3 * count);
  const code = codeTable(camera.response);
  const [red, green, blue] = channels;
  const rows = camera.colourSpace === 'wide' ? wideFromSrgb : asItIs;
  for (let k = 0; k < 3; k++) {
    const [fromRed, fromGreen, fromBlue] = rows[k];
    for (let at = 0; at < count; at++) {
      const linear = fromRed * red[at] + fromGreen * green[at] + fromBlue * blue[at];
      codes[3 * at + k] = Math.round(code(linear) * fullScale);
    }
  }
  return codes;
}

/** `codeOf` from a table with linear interpolation over the square root of light, where the curves are smooth. */
function codeTable(response: Response): (linear: number) => number {
  if (response.kind === 'linear') return (linear) => codeOf(response, linear);
  const steps = 4096;
  const table = Float64Array.from({ length: steps + 2 }, (_, i) => codeOf(response, (i / steps) ** 2));
  return (linear) => {
    const place = Math.sqrt(Math.min(1, Math.max(0, linear))) * steps;
    const below = Math.floor(place);
    return table[below] + (place - below) * (table[below + 1] - table[below]);
  };
}
