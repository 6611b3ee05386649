import { codesOf } from './camera/encode';
import { colourResponse } from './camera/colour-response';
import { onSensor, withNoise, withVeil } from './camera/expose';
import { planeView } from './camera/plane-view';
import type { Camera } from './camera/settings';
import { photoBytes } from './files/photo-file';
import { type PanelBounds, panelPicture, type Scene } from './front-panel';
import { type PhotoTruth, photoTruth } from './truth-file';

export type { Camera, ColourSpace, FileKind, Response } from './camera/settings';
export type { Pose } from './camera/plane-view';
export type { PlacedWindow, Scene } from './front-panel';
export type { PhotoTruth, WindowTruth } from './truth-file';
export type { LitWindow, Outline, PrintName } from './window-scene';

export interface RenderedPhoto {
  readonly bytes: Uint8Array;
  readonly truth: PhotoTruth;
}

/** The part of the panel that the camera sees, with a little more on every side. */
function seenBounds(camera: Camera): PanelBounds {
  const { widthPx, heightPx } = camera;
  const view = planeView(camera.pose, widthPx, heightPx, camera.focalLength35Mm);
  const corners = (
    [
      [0, 0],
      [widthPx, 0],
      [widthPx, heightPx],
      [0, heightPx],
    ] as const
  ).map((px) => view.toPanel(px));
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [leftMm, topMm] = [Math.min(...xs) - 1, Math.min(...ys) - 1];
  return { leftMm, topMm, widthMm: Math.max(...xs) + 1 - leftMm, heightMm: Math.max(...ys) + 1 - topMm };
}

/** Code values of the upright photo, three channels a pixel, row by row; the same scene and camera give the same codes. */
export function renderCodes(scene: Scene, camera: Camera): Uint8Array | Uint16Array {
  const view = planeView(camera.pose, camera.widthPx, camera.heightPx, camera.focalLength35Mm);
  // Twice as fine as the photo, so that averaging over its pixels leaves no steps at the edges.
  const density = Math.ceil((2 * camera.widthPx) / camera.pose.framedMm);
  const panel = panelPicture(scene, seenBounds(camera), density, colourResponse(camera.colour));
  const light = withNoise(onSensor(withVeil(panel, camera.veil), view, camera), camera);
  return codesOf(light, camera, camera.file.kind === 'jpeg' ? 8 : camera.file.bits);
}

/** One photo as the camera would have written it, with what is true of it. */
export async function renderPhoto(scene: Scene, camera: Camera): Promise<RenderedPhoto> {
  return { bytes: await photoBytes(renderCodes(scene, camera), camera), truth: photoTruth(scene, camera) };
}
