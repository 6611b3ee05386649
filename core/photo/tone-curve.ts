import type { IccBytes } from './icc-bytes';

/** Code (0..1 of full scale) to light (0..1), as a profile's tone curve says. */
export interface ToneCurve {
  /** Light is proportional to the code: within 1e-3 of full scale everywhere. */
  readonly isIdentity: boolean;
  lightOf(code: number): number;
}

/** Where the tables and formulas of two writers may round apart. */
const identityTolerance = 1e-3;

function curve(lightOf: (code: number) => number): ToneCurve | null {
  let isIdentity = true;
  for (let i = 0; i <= 64; i++) {
    const light = lightOf(i / 64);
    if (!Number.isFinite(light)) return null;
    if (Math.abs(light - i / 64) > identityTolerance) isIdentity = false;
  }
  return { isIdentity, lightOf };
}

function curveFromTable(bytes: IccBytes, offset: number, count: number): ToneCurve | null {
  if (count < 2 || !bytes.holds(offset, 2 * count)) return null;
  const table = Float64Array.from({ length: count }, (_, i) => bytes.u16(offset + 2 * i) / 65535);
  return curve((code) => {
    const place = Math.min(1, Math.max(0, code)) * (count - 1);
    const below = Math.min(Math.floor(place), count - 2);
    return table[below] + (table[below + 1] - table[below]) * (place - below);
  });
}

/** How many parameters each kind of parametric curve has. */
const parameterCounts = [1, 3, 4, 5, 7];

function curveFromParameters(bytes: IccBytes, at: number): ToneCurve | null {
  const kind = bytes.u16(at + 8);
  const count = parameterCounts[kind];
  if (count === undefined) return null;
  const values = Array.from({ length: count }, (_, i) => bytes.s15Fixed16(at + 12 + 4 * i));
  if (values.some((value) => !Number.isFinite(value))) return null;
  const [g, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0] = values;
  const power = (x: number): number => Math.pow(Math.max(0, a * x + b), g);
  switch (kind) {
    case 0:
      return curve((x) => Math.pow(x, g));
    case 1:
      return curve((x) => (x >= -b / a ? power(x) : 0));
    case 2:
      return curve((x) => (x >= -b / a ? power(x) + c : c));
    case 3:
      return curve((x) => (x >= d ? power(x) : c * x));
    default:
      return curve((x) => (x >= d ? power(x) + e : c * x + f));
  }
}

/**
 * Reads a tone curve of a profile: 'curv' (identity, a power, or a table with straight lines between its entries)
 * or 'para' (kinds 0..4). Light is not cut to 0..1.
 *
 * @param at  offset of the tag's data
 * @returns null when the bytes are no such curve, lie outside the file, or give no finite number
 * @source ICC.1:2022, 10.6 curveType and 10.18 parametricCurveType
 * @rule PX4
 */
export function readToneCurve(bytes: IccBytes, at: number): ToneCurve | null {
  const type = bytes.ascii(at, 4);
  if (type === 'para') return curveFromParameters(bytes, at);
  if (type !== 'curv') return null;
  const count = bytes.u32(at + 8);
  if (count === 0) return curve((code) => code);
  if (count === 1) {
    const gamma = bytes.u16(at + 12) / 256;
    return curve((code) => Math.pow(code, gamma));
  }
  return curveFromTable(bytes, at + 12, count);
}
