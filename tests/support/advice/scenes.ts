import type { Figure } from '../../../core/contract/figure';
import type { Reading } from '../../../core/contract/readings';
import { readSeries, requestOfSeries } from '../../../core/contract/series';
import { measuredMap, type MeasuredMap } from '../../../core/advice/measured-map';
import { t60 } from '../../../samples/render/arrangements';
import { colourResponse } from '../../../samples/render/camera/colour-response';
import { cameraConstant } from '../../../samples/render/camera/settings';
import { type Camera, type LitWindow, renderPhoto } from '../../../samples/render/index';
import type { Lamp } from '../../../samples/render/light/lamp';
import { transmission } from '../../../samples/render/light/materials';
import { lights, times } from '../../../samples/render/light/spectra';
import { alone, onStand } from '../../../samples/render/sets/set';
import { evennessScore } from '../../../samples/render/truth/score';
import { cellsOfLayers } from '../../../samples/render/truth/glow-cells';
import { layersOf } from '../../../samples/render/window-scene';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { measureWindows } from '../measured-samples';
import { seededRandom } from '../seeded-random';

/** Numbers by chance, the same in every run with one seed. */
export interface Chance {
  readonly between: (from: number, to: number) => number;
  readonly is: (share: number) => boolean;
}

export function chance(seed: number): Chance {
  const random = seededRandom(seed);
  // The first numbers of neighbouring seeds are alike.
  for (let i = 0; i < 10; i++) random();
  return { between: (from, to) => from + (to - from) * random(), is: (share) => random() < share };
}

/** A plain window of a size, without print's hints: the scale of the T-60 where it fits, else no print. */
export function windowOf(
  size: { readonly widthMm: number; readonly heightMm: number },
  light: string,
  lamps: readonly Lamp[],
  box: LitWindow['box'],
): LitWindow {
  const isScale = size.widthMm === 92 && size.heightMm === 18;
  return { ...t60(light, lamps, box), ...size, print: isScale ? 'larkfield-t60' : 'none' };
}

/** The everyday camera on a stand, 8 px/mm, exposed so that the brightest channel of the brightest place is at code 225. */
export function cameraFor(window: LitWindow, changes: Partial<Camera> = {}): Camera {
  const { widthMm, heightMm } = window;
  const [framedMm, highMm] = [widthMm + 20, heightMm + 16];
  const camera: Camera = {
    ...onStand,
    widthPx: Math.round(8 * framedMm),
    heightPx: Math.round(8 * highMm),
    pose: { ...onStand.pose, framedMm, aimMm: [widthMm / 2, heightMm / 2] },
    fNumber: 4,
    iso: 100,
    ...changes,
  };
  const response = colourResponse(camera.colour);
  const layers = layersOf(window).map(({ light, field }) => ({ field, rgb: response(times(lights[light], transmission.base)) })); // prettier-ignore
  let brightest = 0;
  for (let i = 0; i < layers[0].field.values.length; i++) {
    for (let k = 0; k < 3; k++) {
      brightest = Math.max(brightest, layers.reduce((sum, { field, rgb }) => sum + field.values[i] * rgb[k], 0)); // prettier-ignore
    }
  }
  const atCode225 = 0.75;
  return { ...camera, exposureS: (atCode225 * 16) / (cameraConstant * brightest) };
}

/** A window as it was photographed and measured: what advice has to go on. */
export interface PhotographedWindow {
  readonly name: string;
  readonly reading: Reading;
  readonly score: Figure;
  readonly spots: Reading['spots'];
  readonly map: MeasuredMap;
  readonly isSizeKnown: boolean;
}

/** A window and the camera that it is photographed with. */
export interface Shot {
  readonly window: LitWindow;
  readonly camera?: Partial<Camera>;
  /** What the owner of the camera says of its curve; left out: that it is plain sRGB. */
  readonly encoding?: 'srgb' | 'profile';
}

/**
 * Two cameras in turn, as restorers have them: one stated to be plain sRGB, which it is but for a slope of up to a twentieth in the
 * middle, and one with an S curve that nobody knows of. Lenses darken towards the corners by cos to the power of 0 to 1.5.
 */
export function shotOf(window: LitWindow, seed: number): Shot {
  const { between } = chance(seed + 500_000);
  const shading = between(0, 1.5);
  const isStated = seed % 2 === 0;
  const response = { kind: 'contrasty', strength: between(0, isStated ? 0.1 : 0.5) } as const;
  return { window, camera: { shading, response }, encoding: isStated ? 'srgb' : 'profile' };
}

/** Photographs windows and measures them end to end, with corners as a careful user sets them. */
export async function photographed(shots: readonly Shot[]): Promise<PhotographedWindow[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-advice-'));
  try {
    const requests = [];
    for (const [i, { window, camera: changes, encoding = 'srgb' }] of shots.entries()) {
      const camera = { ...cameraFor(window, changes), seed: 700 + i };
      const { bytes, truth } = await renderPhoto(alone(window), camera);
      const photo = `photo-${i}`;
      writeFileSync(path.join(folder, photo), bytes);
      const { widthMm, heightMm, outline, print } = window;
      const series = {
        format: 'evendial-series',
        version: 1,
        room: 'dark',
        windows: [{ name: 'shown', widthMm, heightMm, outline, print: print === 'none' ? 'none' : 'dark' }],
        trials: [
          {
            name: photo,
            photos: [{ file: photo, encoding }],
            light: window.light,
            corners: { shown: truth.windows[0].cornersPx },
          },
        ],
      };
      requests.push(requestOfSeries(readSeries(JSON.stringify(series), 'drawn'), (file) => path.join(folder, file)));
    }
    const jobs = requests.flatMap((one) => one.jobs);
    const measured = await measureWindows({ ...requests[0], jobs, withMaps: true });
    return measured.map(({ reading, maps }) => {
      const { glowLuminance, widthMm, heightMm, exposureNormalised } = maps!;
      const map = measuredMap(glowLuminance, 4, widthMm, heightMm, exposureNormalised);
      return {
        name: reading.name,
        reading,
        score: reading.evenness.score,
        spots: reading.spots,
        map,
        isSizeKnown: true,
      };
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Evenness of the whole light, by the render script and never by the engine. */
export function trueScore(window: LitWindow): number {
  return evennessScore(cellsOfLayers(window.widthMm, window.heightMm, window.outline, layersOf(window)), 500);
}
