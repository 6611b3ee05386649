import { matchWhiteBalance } from '../../photo/white-balance';
import { tieColour, type ColourTie } from '../../preparation/comparable';
import type { ComparedWindow } from '../compared-window';
import { cameraOf, exposureDifferenceEv, likeExposureEv, sharedError } from '../like-photos';
import { sharedErrorOfLikePhotos } from '../pairs';

/** A window of a trial beside that of the reference, and how their photos compare. */
export interface PhotoPair {
  readonly trial: ComparedWindow;
  readonly reference: ComparedWindow;
  /** The reference beside itself. */
  readonly isSelf: boolean;
  /** Two windows of one photo. */
  readonly isOnePhoto: boolean;
  /** Share of error in common, 0..1. */
  readonly rho: number;
  readonly isOtherCamera: boolean;
  /** Another camera, or another focal length. */
  readonly isOtherLens: boolean;
  /** Difference of exposures when it is more than a third of a stop, EV; null: it is not, or not known. */
  readonly exposureApartEv: number | null;
  /** Larger over smaller size of the window in the photos. */
  readonly scaleRatio: number;
  readonly isOtherScale: boolean;
  /** Takes the trial's colours to the reference's photo. */
  readonly colourTie: ColourTie;
}

/** Strokes blur alike as long as windows are of one size within this. @source our own choice, after rendered JPEGs */
const likeScale = 1.2;
const roundingEv = 0.02;

/**
 * How the photos of a trial and of the reference compare.
 *
 * @rule RF2
 */
export function photoPair(trial: ComparedWindow, reference: ComparedWindow): PhotoPair {
  const [photo, base] = [trial.reading.photos[0], reference.reading.photos[0]];
  const isOnePhoto = photo.sha256 === base.sha256;
  const [camera, baseCamera] = [cameraOf(photo), cameraOf(base)];
  const isOtherCamera = camera !== null && baseCamera !== null && camera !== baseCamera;
  const match = matchWhiteBalance(photo.camera, base.camera);
  const [focal, baseFocal] = [photo.camera.focalLengthMm, base.camera.focalLengthMm];
  const isOtherFocal =
    focal !== undefined && baseFocal !== undefined && match.verdict === 'differs' && /focal/.test(match.reason);
  const apart = exposureDifferenceEv(base, photo);
  const [px, basePx] = [trial.reading.outline.pxPerMm, reference.reading.outline.pxPerMm];
  const scaleRatio = Math.max(px, basePx) / Math.min(px, basePx);
  return {
    trial,
    reference,
    isSelf: trial === reference,
    isOnePhoto,
    rho: isOnePhoto ? sharedErrorOfLikePhotos : sharedError(trial.reading, reference.reading),
    isOtherCamera,
    isOtherLens: isOtherCamera || isOtherFocal,
    exposureApartEv: apart !== null && Math.abs(apart) > likeExposureEv + roundingEv ? apart : null,
    scaleRatio,
    isOtherScale: scaleRatio > likeScale,
    colourTie: isOnePhoto
      ? { by: 'settings' }
      : tieColour(
          { camera: base.camera, witness: reference.witness },
          { camera: photo.camera, witness: trial.witness },
        ),
  };
}
