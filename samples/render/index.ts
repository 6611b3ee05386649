import { colourResponse } from './camera/colour-response';
import { codesOf } from './camera/encode';
import { exposed, throughLens, withNoise, withVeil } from './camera/expose';
import { planeView, type PlaneView, type Point } from './camera/plane-view';
import type { Camera } from './camera/settings';
import { photoBytes } from './files/photo-file';
import { type PanelBounds, type PanelPicture, panelPicture, type PlacedWindow, type Scene } from './front-panel';
import { photoTruth, type PhotoTruth, type WindowTruth } from './truth-file';

export type { Camera, PhotoTruth, PlacedWindow, Scene, WindowTruth };
export type { LitWindow } from './window-scene';

/** The part of the panel that the photo shows, with a margin. */
function seenBounds(view: PlaneView, camera: Camera): PanelBounds {
  const corners: Point[] = [
    [0, 0],
    [camera.widthPx, 0],
    [camera.widthPx, camera.heightPx],
    [0, camera.heightPx],
  ];
  const seen = corners.map(view.toPanel);
  const [xs, ys] = [seen.map(([x]) => x), seen.map(([, y]) => y)];
  const [leftMm, topMm] = [Math.min(...xs) - 2, Math.min(...ys) - 2];
  return { leftMm, topMm, widthMm: Math.max(...xs) + 2 - leftMm, heightMm: Math.max(...ys) + 2 - topMm };
}

/** What a lens makes of a scene before it is exposed. */
interface LensPicture {
  readonly key: string;
  readonly panel: PanelPicture;
  readonly blurred: ReturnType<typeof throughLens>;
}

/** The scene drawn last: photos that differ in exposure, noise, curve or file alone need no other. */
let lensPicture: LensPicture | null = null;

function drawnScene(scene: Scene, camera: Camera): LensPicture {
  const { widthPx, heightPx, focalLength35Mm, pose, colour, veil, blurPx } = camera;
  const key = JSON.stringify([scene, widthPx, heightPx, focalLength35Mm, pose, colour, veil, blurPx]);
  if (lensPicture?.key === key) return lensPicture;
  const view = planeView(pose, widthPx, heightPx, focalLength35Mm);
  const density = Math.min(40, Math.max(10, (1.15 * widthPx) / pose.framedMm));
  const panel = withVeil(panelPicture(scene, seenBounds(view, camera), density, colourResponse(colour)), veil);
  lensPicture = { key, panel, blurred: throughLens(panel, view, camera) };
  return lensPicture;
}

/** Code values of the upright photo, three channels a pixel, row by row: 0..255 or 0..65535. */
export function renderCodes(scene: Scene, camera: Camera): Uint8Array | Uint16Array {
  const { panel, blurred } = drawnScene(scene, camera);
  const sensor = withNoise(exposed(blurred, panel, camera), camera);
  return codesOf(sensor, camera, camera.file.kind === 'jpeg' ? 8 : camera.file.bits);
}

/** Renders one photo of a scene and states the truth of it. The same scene and camera give the same bytes. */
export async function renderPhoto(scene: Scene, camera: Camera): Promise<{ bytes: Buffer; truth: PhotoTruth }> {
  return { bytes: await photoBytes(renderCodes(scene, camera), camera), truth: photoTruth(scene, camera) };
}
