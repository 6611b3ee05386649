import { blurGaussian } from '../base/gaussian';
import { createPlane, type Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import { linearFromSrgb } from '../colour/transfer';
import type { Encoding } from '../contract/light';
import type { CameraFacts } from '../contract/readings';
import { meanLight } from '../photo/area-means';
import type { DecodedPhoto } from '../photo/decoded-photo';
import { luminanceWeights } from '../window/rgb-weights';

/** The lens's own share of light over the frame, from a photo of an evenly lit sheet. */
export interface FlatField {
  readonly file: string;
  readonly camera: CameraFacts;
  /** Of the whole upright photo. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** The whole frame on a coarse grid: luminance over its largest, above 0, 1 at the brightest place. */
  readonly relLuminance: Plane;
  /** A clause that says why the photo cannot serve, or null. */
  readonly problem: string | null;
}

/** Cells along the frame's longer side: a lens changes slowly. */
const cellsAlong = 160;
/** Blur over the frame's longer side: dust and paper go, the lens stays. @source our own choice */
const blurShare = 0.03;
/** As for the lit photo: a channel at 250 of 255, or 0.98 of full scale in linear files. */
const clippedFrom = linearFromSrgb(250 / 255);
const clippedFromLinear = 0.98;
const mostClipped = 0.005;
/** In 8 bits a step is then 3 % of the light; averaging hardly helps below. @source our own choice */
const leastMedian = 0.02;
/** No lens takes more light away; a frame, a shadow or print does. @source our own choice */
const darkestCorner = 0.15;
/** Deviation of ln L from its own blur: print or texture. @source our own choice */
const mostStructure = 0.05;

function problemOf(luminance: Plane, blurred: Plane, clippedShare: number): string | null {
  if (clippedShare > mostClipped) return 'it is overexposed';
  if (medianOf(luminance.values) < leastMedian) return 'it is too dark';
  const largest = blurred.values.reduce((most, value) => Math.max(most, value), 0);
  const darkest = blurred.values.reduce((least, value) => Math.min(least, value), Infinity);
  if (darkest < darkestCorner * largest) return 'it is no evenly lit sheet: parts of it are nearly black';
  const squares = luminance.values.reduce((sum, value, i) => {
    const ratio = Math.log(Math.max(value, 1e-6) / blurred.values[i]);
    return sum + ratio * ratio;
  }, 0);
  if (Math.sqrt(squares / luminance.values.length) > mostStructure) return 'it shows more than an evenly lit sheet';
  return null;
}

/**
 * How much light the lens lets through from place to place: blurred luminance of an evenly lit sheet over its largest.
 *
 * @param decoded  the whole photo; not altered
 * @param camera   its notes, with what the user stated before them
 * @source common practice (flat-field correction); limits our own choice
 * @rule CP3
 */
export function flatFieldOf(decoded: DecodedPhoto, file: string, camera: CameraFacts, encoding: Encoding): FlatField {
  const { widthPx, heightPx } = decoded.facts;
  const factor = Math.min(1, cellsAlong / Math.max(widthPx, heightPx));
  const width = Math.max(1, Math.round(widthPx * factor));
  const height = Math.max(1, Math.round(heightPx * factor));
  const { rgb } = meanLight(decoded, encoding, width, height);
  const luminance = createPlane(width, height);
  const top = encoding === 'linear' ? clippedFromLinear : clippedFrom;
  let clipped = 0;
  for (let i = 0, at = 0; i < luminance.values.length; i++, at += 3) {
    const channels = [rgb[at], rgb[at + 1], rgb[at + 2]];
    luminance.values[i] = channels.reduce((sum, value, channel) => sum + luminanceWeights[channel] * value, 0);
    if (Math.max(...channels) >= top) clipped += 1;
  }
  const blurred = blurGaussian(luminance, blurShare * Math.max(width, height));
  const problem = problemOf(luminance, blurred, clipped / luminance.values.length);
  const largest = blurred.values.reduce((most, value) => Math.max(most, value), 0);
  const relLuminance = { ...blurred, values: blurred.values.map((value) => value / largest) };
  return { file, camera, widthPx, heightPx, relLuminance, problem };
}
