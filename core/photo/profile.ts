import { multiplyMatrices, type Matrix3 } from '../colour/matrix3';
import { linearSrgbFromConnectionXyz } from './connection-space';
import { IccBytes } from './icc-bytes';
import { readToneCurve, type ToneCurve } from './tone-curve';

/** What an embedded profile says, as far as it can be followed with one curve a channel and a matrix. */
export type ColourProfile =
  | { readonly kind: 'matrix'; readonly name: string; readonly curves: Curves; readonly toLinearSrgb: Matrix3 }
  | { readonly kind: 'grey'; readonly name: string; readonly curve: ToneCurve }
  /** Needs a colour engine that follows look-up tables. */
  | { readonly kind: 'lut' | 'cmyk'; readonly name: string }
  /** Damaged, or of a kind that photos do not have: counts as absent. */
  | { readonly kind: 'broken' };

type Curves = readonly [ToneCurve, ToneCurve, ToneCurve];
type TagPlaces = ReadonlyMap<string, number>;

const broken: ColourProfile = { kind: 'broken' };
/** No real profile has more; a damaged count must not keep us busy. */
const tagCountLimit = 200;
const lookUpTags = ['A2B0', 'A2B1', 'A2B2', 'D2B0', 'D2B1', 'D2B2', 'D2B3'];

/** Tag name to the place of its data; null when the table is damaged. */
function readTagPlaces(bytes: IccBytes): TagPlaces | null {
  const count = bytes.u32(128);
  if (!(count >= 1 && count <= tagCountLimit) || !bytes.holds(132, 12 * count)) return null;
  const places = new Map<string, number>();
  for (let i = 0; i < count; i++) {
    const entry = 132 + 12 * i;
    if (bytes.holds(bytes.u32(entry + 4), bytes.u32(entry + 8)))
      places.set(bytes.ascii(entry, 4), bytes.u32(entry + 4));
  }
  return places;
}

/** The profile's description, from a text of version 2 ('desc') or of version 4 ('mluc', its first language). */
function readName(bytes: IccBytes, at: number | undefined): string {
  if (at === undefined) return 'unnamed profile';
  const type = bytes.ascii(at, 4);
  let name = '';
  if (type === 'desc') name = bytes.ascii(at + 12, bytes.u32(at + 8));
  if (type === 'mluc') name = bytes.utf16(at + bytes.u32(at + 24), bytes.u32(at + 20));
  // A text that runs over the end of the profile reads as empty.
  return [...name.trim()].slice(0, 200).join('') || 'unnamed profile';
}

function readXyz(bytes: IccBytes, at: number): readonly [number, number, number] {
  return [bytes.s15Fixed16(at + 8), bytes.s15Fixed16(at + 12), bytes.s15Fixed16(at + 16)];
}

function readMatrixProfile(bytes: IccBytes, places: TagPlaces, name: string): ColourProfile {
  const tags = ['rXYZ', 'gXYZ', 'bXYZ', 'rTRC', 'gTRC', 'bTRC'].map((tag) => places.get(tag));
  if (tags.includes(undefined)) return broken;
  const [red, green, blue] = tags.slice(0, 3).map((at) => readXyz(bytes, at!));
  const colorants: Matrix3 = [
    [red[0], green[0], blue[0]],
    [red[1], green[1], blue[1]],
    [red[2], green[2], blue[2]],
  ];
  const read = new Map<number, ToneCurve | null>();
  const curves = tags.slice(3).map((at) => {
    if (!read.has(at!)) read.set(at!, readToneCurve(bytes, at!));
    return read.get(at!)!;
  });
  if (curves.includes(null as never) || !isUsable(colorants)) return broken;
  const toLinearSrgb = multiplyMatrices(linearSrgbFromConnectionXyz, colorants);
  return { kind: 'matrix', name, curves: curves as unknown as Curves, toLinearSrgb };
}

/** All three channels at full scale give light of about the connection space's white (Y = 1). */
function isUsable(colorants: Matrix3): boolean {
  const whiteY = colorants[1][0] + colorants[1][1] + colorants[1][2];
  return colorants.flat().every(Number.isFinite) && whiteY > 0.5 && whiteY < 2;
}

function readGreyProfile(bytes: IccBytes, places: TagPlaces, name: string): ColourProfile {
  const at = places.get('kTRC');
  const curve = at === undefined ? null : readToneCurve(bytes, at);
  return curve ? { kind: 'grey', name, curve } : broken;
}

/**
 * Reads an embedded ICC profile: for three channels with a matrix, the matrix from its primaries to linear sRGB
 * (D65) and its tone curves; for grey, its curve.
 *
 * toLinearSrgb = (XYZ to linear sRGB) x (Bradford, D50 to D65) x (red, green and blue colorants as columns).
 * A profile with look-up tables counts as `lut` even when it holds a matrix too: the tables are what its maker measured.
 *
 * @param icc  the profile's bytes as embedded; not altered
 * @returns kind `broken` for bytes that are no whole profile; never throws
 * @source ICC.1:2022, clauses 7.2 (header), 7.3 (tag table), 8.3.3 (matrix profiles), 9.2 (tags), F.3
 * @rule PX4
 */
export function readColourProfile(icc: Uint8Array): ColourProfile {
  const bytes = new IccBytes(icc);
  if (bytes.ascii(36, 4) !== 'acsp') return broken;
  const places = readTagPlaces(bytes);
  if (!places) return broken;
  const name = readName(bytes, places.get('desc'));
  const space = bytes.ascii(16, 4);
  const hasLookUp = lookUpTags.some((tag) => places.has(tag));
  if (space === 'CMYK') return hasLookUp ? { kind: 'cmyk', name } : broken;
  if (space !== 'RGB ' && space !== 'GRAY') return broken;
  if (hasLookUp) return { kind: 'lut', name };
  if (bytes.ascii(20, 4) !== 'XYZ ' && space === 'RGB ') return broken;
  return space === 'RGB ' ? readMatrixProfile(bytes, places, name) : readGreyProfile(bytes, places, name);
}
