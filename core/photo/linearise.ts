import { blockMeans } from '../base/block-means';
import { linearFromSrgb } from '../colour/transfer';
import type { Encoding } from '../contract/light';
import { blocksOf, flagsOfBlocks, flagsOfLight, lightFromCodes, type CodeMeaning, type Curve } from './code-light';
import type { DecodedPhoto } from './decoded-photo';
import type { LinearPhoto, ResponseTrust } from './linear-photo';
import { curvesOfResponse, type CameraResponse } from './response/camera-response';
import { readColourProfile, type ColourProfile } from './profile';

/** How codes become light, and in which colour space they were. */
export interface Conversion extends CodeMeaning {
  readonly colourSpace: string;
  readonly colourSpaceAssumed: boolean;
}

const identity: Curve = (code) => code;

/** What the codes of a photo mean by its file and what was stated, or by the camera's recovered response. @rule PX1, BR6 */
export function conversionOf(
  decoded: DecodedPhoto,
  encoding: Encoding,
  response: CameraResponse | null = null,
): Conversion {
  const named = namedConversion(decoded, encoding);
  if (!response) return named;
  // The primaries stay those of the file: a tone curve does not change them.
  return { ...named, curves: curvesOfResponse(response), codesAreLight: response.isLinear };
}

function namedConversion(decoded: DecodedPhoto, encoding: Encoding): Conversion {
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

function trustOf(
  encoding: Encoding,
  encodingStated: boolean,
  codesAreLight: boolean,
  response: CameraResponse | null,
): ResponseTrust {
  if (codesAreLight) return 'linear';
  if (response) return response.isDoubted ? 'unknown' : 'recovered';
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
 * @param reducedBy       means of blocks of so many pixels a side are given instead, flags of any pixel; what is no whole block at
 *   the right and below is dropped
 * @param response  of the camera, recovered from an exposure series: its curves stand for those of the file
 * @throws RangeError  when the planes do not fit the region (a defect)
 * @source IEC 61966-2-1:1999 (sRGB curve); ICC.1:2022, F.3; the flags' limits are our own choice, near enough to full scale
 *   that JPEG ringing (about 5 codes) does not hide clipping
 * @rule PX1, PX2, PX3
 */
export function linearisePhoto(
  decoded: DecodedPhoto,
  encoding: Encoding,
  encodingStated: boolean,
  reducedBy = 1,
  response: CameraResponse | null = null,
): LinearPhoto {
  checkShape(decoded);
  const { region, facts, codes, linear } = decoded;
  const blocks = blocksOf(region, reducedBy);
  const size = {
    region: { ...region, width: blocks.width * reducedBy, height: blocks.height * reducedBy },
    ...(reducedBy > 1 ? { reducedBy } : {}),
    widthPx: facts.widthPx,
    heightPx: facts.heightPx,
  };
  if (linear && (encoding === 'profile' || !codes)) {
    return {
      ...size,
      rgb: reducedBy > 1 ? blockMeans(linear, region.width, region.height, reducedBy) : linear.slice(),
      flags: codes
        ? lightFromCodes(codes, conversionOf(decoded, 'srgb'), blocks).flags
        : flagsOfBlocks(flagsOfLight(linear), blocks),
      colourSpace: decoded.profileName ?? 'unnamed profile',
      colourSpaceAssumed: false,
      response: 'unknown',
    };
  }
  const conversion = conversionOf(decoded, encoding, response);
  const { colourSpace, colourSpaceAssumed, codesAreLight } = conversion;
  if (!codes) throw new RangeError('a photo without codes');
  return {
    ...size,
    ...lightFromCodes(codes, conversion, blocks),
    colourSpace,
    colourSpaceAssumed,
    response: trustOf(encoding, encodingStated, codesAreLight, response),
  };
}
