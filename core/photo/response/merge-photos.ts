import type { Encoding } from '../../contract/light';
import { blocksOf } from '../code-light';
import type { DecodedPhoto } from '../decoded-photo';
import type { LinearPhoto } from '../linear-photo';
import { conversionOf } from '../linearise';
import type { CameraResponse } from './camera-response';
import { mergedLight } from './merge';

/** A photo of an exposure series, or the part of it that shows the windows. */
export interface ExposedPart {
  readonly part: DecodedPhoto;
  /** Relative to the other photos, above 0. */
  readonly relExposure: number;
}

/**
 * The light of an exposure series, as `linearisePhoto` gives that of one photo.
 *
 * @param parts    of rising exposure, registered, of one size; not altered
 * @param unit     the photo whose full scale is 1 and whose region stands for all
 * @param response of the camera that took them
 * @throws RangeError for parts of different size, or a photo without codes (a defect)
 * @source Debevec & Malik 1997
 * @rule LU8, BR6
 */
export function mergePhotos(
  parts: readonly ExposedPart[],
  unit: ExposedPart,
  encoding: Encoding,
  response: CameraResponse,
  reducedBy: number,
): LinearPhoto {
  const { region, facts } = unit.part;
  const blocks = blocksOf(region, reducedBy);
  const conversion = conversionOf(unit.part, encoding, response);
  const frames = parts.map(({ part, relExposure }) => {
    if (!part.codes) throw new RangeError('a photo without codes');
    return { codes: part.codes, relExposure };
  });
  return {
    region: { ...region, width: blocks.width * reducedBy, height: blocks.height * reducedBy },
    ...(reducedBy > 1 ? { reducedBy } : {}),
    widthPx: facts.widthPx,
    heightPx: facts.heightPx,
    ...mergedLight(frames, conversion, unit.relExposure, blocks),
    colourSpace: conversion.colourSpace,
    colourSpaceAssumed: conversion.colourSpaceAssumed,
    response: response.isLinear ? 'linear' : response.isDoubted ? 'unknown' : 'recovered',
  };
}
