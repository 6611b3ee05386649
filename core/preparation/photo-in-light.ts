import type { LinearPhoto } from '../base/linear-photo';
import type { Corners } from '../base/points';
import type { OutlineShape } from '../contract/outline';
import type { CameraFacts } from '../contract/readings';
import type { Homography } from '../window/homography';

/** A photo, or the part of it that shows the windows, with what is known of it. */
export interface PhotoInLight {
  /** What the user called it. */
  readonly file: string;
  readonly sha256: string;
  /** What the user stated stands before what the file says. */
  readonly camera: CameraFacts;
  readonly linear: LinearPhoto;
}

/** Where a window stands in the photo. */
export interface WindowPlace {
  readonly corners: Corners;
  readonly homography: Homography;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly shape: OutlineShape;
}
