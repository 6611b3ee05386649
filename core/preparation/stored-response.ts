import type { StoredResponse } from '../contract/response';
import type { CameraFacts } from '../contract/readings';
import type { PhotoFacts } from '../photo/decoded-photo';
import type { CameraResponse } from '../photo/response/camera-response';
import type { RecoveredResponse } from '../photo/response/recover';

/** What a tone curve depends on. */
export interface ResponseScope {
  readonly camera: CameraFacts;
  readonly facts: Pick<PhotoFacts, 'pictureStyle'>;
  readonly colourSpace: string;
}

/** What became of a stored response. */
export type StoredResponseUse =
  { readonly state: 'used'; readonly stored: StoredResponse } | { readonly state: 'refused'; readonly reason: string };

/**
 * A recovered response with what it holds for, to be kept.
 *
 * @returns null where the camera's model or its ISO are not known: it could never be told which photos it fits
 * @rule BR9
 */
export function storedResponseOf(
  { response, leftOutError }: RecoveredResponse,
  { camera, facts, colourSpace }: ResponseScope,
  photoCount: number,
): StoredResponse | null {
  const { make, model, iso } = camera;
  if (model === undefined || iso === undefined) return null;
  return {
    format: 'evendial-response',
    version: 1,
    camera: { ...(make === undefined ? {} : { make }), model, iso, pictureStyle: facts.pictureStyle ?? null },
    colourSpace,
    curves: { red: [...response.red], green: [...response.green], blue: [...response.blue] },
    isLinear: response.isLinear,
    leftOutError,
    photoCount,
  };
}

/**
 * Why a stored response does not hold for a photo, as a clause; null when nothing that is known speaks against it.
 *
 * @source our own choice: cameras change their curve with any of these
 * @rule BR9
 */
export function responseMismatch(stored: StoredResponse, { camera, facts, colourSpace }: ResponseScope): string | null {
  const { make, model, iso, pictureStyle } = stored.camera;
  if (camera.model === undefined || camera.iso === undefined) return 'the photo does not tell its camera and ISO';
  if (camera.model !== model || (make !== undefined && camera.make !== make)) {
    return `it is that of ${model}, the photo is from ${camera.model}`;
  }
  if (camera.iso !== iso) return `it was recovered at ISO ${iso}, the photo is at ISO ${camera.iso}`;
  if ((facts.pictureStyle ?? null) !== pictureStyle) return 'the camera’s picture style differs';
  if (colourSpace !== stored.colourSpace) {
    return `it was recovered in ${stored.colourSpace}, the photo is in ${colourSpace}`;
  }
  return null;
}

/** The curves of a stored response. */
export function responseOfStored({ curves, isLinear }: StoredResponse): CameraResponse {
  return { ...curves, isLinear };
}
