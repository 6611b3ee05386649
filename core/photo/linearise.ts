import type { Matrix3 } from '../colour/matrix3';
import { linearFromSrgb, srgbFromLinear } from '../colour/transfer';
import type { Encoding } from '../contract/light';
import type { DecodedPhoto } from './decoded-photo';
import {
  blueClipped,
  greenClipped,
  outsideGamut,
  redClipped,
  type LinearPhoto,
  type ResponseTrust,
} from './linear-photo';
import { readColourProfile, type ColourProfile } from './profile';

type Curve = (code: number) => number;

/** How codes of 0..1 become linear sRGB. */
interface Conversion {
  readonly curves: readonly [Curve, Curve, Curve];
  /** Null: the primaries are those of sRGB already. */
  readonly matrix: Matrix3 | null;
  readonly codesAreLight: boolean;
  readonly colourSpace: string;
  readonly colourSpaceAssumed: boolean;
}

const identity: Curve = (code) => code;

/** Above this share of full scale a channel no longer tells how bright the light was. */
const clippedFrom = 250 / 255;
const clippedFromLinear = 0.98;
/** An encoded channel up to the first, while another is above the second, was cut off at the colour space's border. */
const emptyUpTo = 1 / 255;
const litFrom = 40 / 255;

const isClipped = 1;
const isEmpty = 2;
const isLit = 4;

function conversionOf(decoded: DecodedPhoto, encoding: Encoding): Conversion {
  const found: ColourProfile = encoding !== 'srgb' && decoded.icc ? readColourProfile(decoded.icc) : { kind: 'broken' };
  const codesAreLight = encoding === 'linear';
  const plain = codesAreLight ? identity : linearFromSrgb;
  if (found.kind === 'matrix') {
    const [red, green, blue] = found.curves;
    return {
      curves: codesAreLight ? [identity, identity, identity] : [red.lightOf, green.lightOf, blue.lightOf],
      matrix: found.toLinearSrgb,
      codesAreLight: codesAreLight || found.curves.every((curve) => curve.isIdentity),
      colourSpace: found.name,
      colourSpaceAssumed: false,
    };
  }
  if (found.kind === 'grey') {
    const curve = codesAreLight ? identity : found.curve.lightOf;
    const isLight = codesAreLight || found.curve.isIdentity;
    return {
      curves: [curve, curve, curve],
      matrix: null,
      codesAreLight: isLight,
      colourSpace: found.name,
      colourSpaceAssumed: false,
    };
  }
  return {
    curves: [plain, plain, plain],
    matrix: null,
    codesAreLight,
    colourSpace: 'sRGB',
    colourSpaceAssumed: encoding !== 'srgb' && !decoded.facts.exifSaysSrgb,
  };
}

/** Light of every code, and whether the code is clipped, empty or lit. */
function tablesOf(
  curve: Curve,
  fullScale: number,
  codesAreLight: boolean,
): { light: Float64Array; states: Uint8Array } {
  const light = new Float64Array(fullScale + 1);
  const states = new Uint8Array(fullScale + 1);
  const clipped = codesAreLight ? clippedFromLinear : clippedFrom;
  // The borders of the colour space are judged as seen, so linear codes are compared with the borders' light.
  const empty = codesAreLight ? linearFromSrgb(emptyUpTo) : emptyUpTo;
  const lit = codesAreLight ? linearFromSrgb(litFrom) : litFrom;
  for (let code = 0; code <= fullScale; code++) {
    const share = code / fullScale;
    light[code] = curve(share);
    states[code] = (share >= clipped ? isClipped : 0) | (share <= empty ? isEmpty : 0) | (share > lit ? isLit : 0);
  }
  return { light, states };
}

function flagsOf(red: number, green: number, blue: number): number {
  const any = red | green | blue;
  return (
    (red & isClipped ? redClipped : 0) |
    (green & isClipped ? greenClipped : 0) |
    (blue & isClipped ? blueClipped : 0) |
    (any & isEmpty && any & isLit ? outsideGamut : 0)
  );
}

interface Light {
  readonly rgb: Float32Array;
  readonly flags: Uint8Array;
}

function lightFromCodes(codes: Uint8Array | Uint16Array, conversion: Conversion): Light {
  const fullScale = codes instanceof Uint8Array ? 255 : 65535;
  const built = new Map<Curve, ReturnType<typeof tablesOf>>();
  const [red, green, blue] = conversion.curves.map((curve) => {
    if (!built.has(curve)) built.set(curve, tablesOf(curve, fullScale, conversion.codesAreLight));
    return built.get(curve)!;
  });
  const rgb = new Float32Array(codes.length);
  const flags = new Uint8Array(codes.length / 3);
  const { matrix } = conversion;
  const [[rr, rg, rb], [gr, gg, gb], [br, bg, bb]] = matrix ?? [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const flagOfStates = Uint8Array.from({ length: 512 }, (_, key) => flagsOf(key >> 6, (key >> 3) & 7, key & 7));
  for (let pixel = 0, i = 0; i < codes.length; pixel++, i += 3) {
    const r = red.light[codes[i]];
    const g = green.light[codes[i + 1]];
    const b = blue.light[codes[i + 2]];
    rgb[i] = rr * r + rg * g + rb * b;
    rgb[i + 1] = gr * r + gg * g + gb * b;
    rgb[i + 2] = br * r + bg * g + bb * b;
    flags[pixel] =
      flagOfStates[(red.states[codes[i]] << 6) | (green.states[codes[i + 1]] << 3) | blue.states[codes[i + 2]]];
  }
  return { rgb, flags };
}

/** The state of light that the decoder's colour engine found, as its sRGB code value would have it. */
function stateOfLight(light: number): number {
  return (
    (light >= linearFromSrgb(clippedFrom) ? isClipped : 0) |
    (srgbFromLinear(light) <= emptyUpTo ? isEmpty : 0) |
    (srgbFromLinear(light) > litFrom ? isLit : 0)
  );
}

/** Flags for light without codes; where there are codes, they know better what was clipped. */
function flagsOfLight(rgb: Float32Array): Uint8Array {
  return Uint8Array.from({ length: rgb.length / 3 }, (_, i) =>
    flagsOf(stateOfLight(rgb[3 * i]), stateOfLight(rgb[3 * i + 1]), stateOfLight(rgb[3 * i + 2])),
  );
}

function trustOf(encoding: Encoding, encodingStated: boolean, codesAreLight: boolean): ResponseTrust {
  if (codesAreLight) return 'linear';
  return encodingStated && encoding === 'srgb' ? 'stated' : 'unknown';
}

function checkShape(decoded: DecodedPhoto): void {
  const { region, codes, linear } = decoded;
  const expected = region.width * region.height * 3;
  for (const values of [codes, linear]) {
    if (values && values.length !== expected) throw new RangeError(`${values.length} values, ${expected} expected`);
  }
  if (!codes && !linear) throw new RangeError('a photo without codes and without light');
}

/**
 * Turns the code values of a photo into linear light: linear sRGB primaries, D65, 1 = full scale, not cut to 0..1.
 *
 * Codes go through the tone curve of each channel (a table of every code value) and then through one matrix.
 * `profile`: curves and primaries of the embedded profile; without one, or with a damaged one, sRGB (assumed unless
 * EXIF says so). `srgb`: the sRGB curve and primaries, whatever is embedded. `linear`: codes are light; the primaries of
 * an embedded matrix profile still apply. Light that the decoder found through look-up tables is taken as it is.
 * Flags: clipped at a code of 250/255 of full scale (0.98 when codes are light); outside the file's colour space where
 * one channel is at most 1/255 while another is above 40/255 (linear codes are compared with the light of these codes).
 * Wrong where the camera bent the tones: then `response` is 'unknown'.
 *
 * @param decoded         not altered
 * @param encodingStated  the user said so: then sRGB counts as known
 * @throws RangeError  when the planes do not fit the region (a defect)
 * @source IEC 61966-2-1:1999 (sRGB curve); ICC.1:2022, F.3; the flags' limits are our own choice, near enough to full scale
 *   that JPEG ringing (about 5 codes) does not hide clipping
 * @rule PX1, PX2, PX3
 */
export function linearisePhoto(decoded: DecodedPhoto, encoding: Encoding, encodingStated: boolean): LinearPhoto {
  checkShape(decoded);
  const { region, facts, codes, linear } = decoded;
  const size = { region, widthPx: facts.widthPx, heightPx: facts.heightPx };
  if (linear && (encoding === 'profile' || !codes)) {
    return {
      ...size,
      rgb: linear.slice(),
      flags: codes ? lightFromCodes(codes, conversionOf(decoded, 'srgb')).flags : flagsOfLight(linear),
      colourSpace: decoded.profileName ?? 'unnamed profile',
      colourSpaceAssumed: false,
      response: 'unknown',
    };
  }
  const conversion = conversionOf(decoded, encoding);
  const { colourSpace, colourSpaceAssumed, codesAreLight } = conversion;
  const response = trustOf(encoding, encodingStated, codesAreLight);
  if (!codes) throw new RangeError('a photo without codes');
  return { ...size, ...lightFromCodes(codes, conversion), colourSpace, colourSpaceAssumed, response };
}
