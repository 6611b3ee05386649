import { codeOf } from '../../samples/render/camera/encode';
import { normal } from '../../samples/render/camera/random';
import { type Camera, type LitWindow, renderCodes } from '../../samples/render/index';
import type { ShownPhoto } from './photo-sets';

/** A scene in linear light, rendered once and exposed as often as wanted. */
export interface ExposedScene {
  readonly window: LitWindow;
  readonly camera: Camera;
  /** At half the camera's exposure, so that nothing clips: 65535 = 1. */
  readonly light: Uint16Array;
}

/** Renders a scene without noise and curve. */
export function exposedScene(window: LitWindow, camera: Camera): ExposedScene {
  const plain: Camera = {
    ...camera,
    exposureS: camera.exposureS / 2,
    response: { kind: 'linear' },
    noise: null,
    file: { kind: 'png', bits: 16 },
  };
  const scene = { roomLight: 0, windows: [{ window, leftMm: 0, topMm: 0 }] };
  return { window, camera, light: renderCodes(scene, plain) as Uint16Array };
}

/**
 * The scene as a camera of this curve photographs it, so many EV over the camera's exposure: noise of 20,000 electrons at full
 * scale, 8-bit codes.
 */
export function exposed(
  { window, camera, light }: ExposedScene,
  response: Camera['response'],
  ev: number,
  changes: Partial<Camera> = {},
): ShownPhoto {
  const factor = 2 ** (ev + 1) / 65535;
  const drawn = (): Uint8Array => {
    const next = normal(50 + ev);
    const curve = Float64Array.from({ length: 4097 }, (_, i) => codeOf(response, (i / 4096) ** 2));
    return Uint8Array.from(light, (code) => {
      const exact = code * factor;
      const noisy = exact + next() * Math.sqrt(exact / 20_000);
      // Over the square root of light the curves are smooth enough for the nearest of 4097 steps: a tenth of a code.
      return Math.round(255 * curve[Math.round(4096 * Math.sqrt(Math.min(1, Math.max(0, noisy))))]);
    });
  };
  return {
    window,
    camera: { ...camera, response, exposureS: camera.exposureS * 2 ** ev, ...changes },
    roomLight: 0,
    drawn,
  };
}
