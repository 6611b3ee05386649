import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { focalLengthPx } from '../../../samples/render/camera/plane-view';
import { type Camera, renderCodes, type Scene } from '../../../samples/render/index';
import { bracket } from '../../../samples/render/sets/bracket';
import { lampSets } from '../../../samples/render/sets/lamp-set';
import { onStand, type SampleSet } from '../../../samples/render/sets/set';
import type { SetTruth } from '../../../samples/render/sets/set-truth';
import { singleLamps } from '../../../samples/render/sets/single-lamps';

const truthOf = (name: string) => JSON.parse(readFileSync(`samples/sets/${name}.truth.json`, 'utf8')) as SetTruth;

const camerasOf = (set: SampleSet): Camera[] => set.tries.flatMap(({ photos }) => photos.map(({ camera }) => camera));

/** Exact, small and linear: what the scene alone gives. */
const exact = (camera: Camera): Camera => ({
  ...camera,
  widthPx: 200,
  heightPx: 76,
  response: { kind: 'linear' },
  noise: null,
  file: { kind: 'png', bits: 16 },
});

describe('sample sets', () => {
  it('[SM15] the exposures of the bracket are one value apart and nothing else of the camera changes but noise and time', () => {
    const cameras = camerasOf(bracket);
    expect(cameras).toHaveLength(5);
    cameras.slice(1).forEach((camera, i) => {
      expect(Math.log2(camera.exposureS / cameras[i].exposureS)).toBeWithin(1, 1e-12);
      const { seed, takenAt, exposureS } = cameras[0];
      expect({ ...camera, seed, takenAt, exposureS }).toEqual(cameras[0]);
    });
  });

  it('[SM15] the light of the single lamps adds up to that of both', () => {
    const [left, right, both] = singleLamps.tries.map(({ photos: [{ scene, camera }] }) =>
      renderCodes({ ...scene, roomLight: 0 }, exact(camera)),
    );
    // Each of the three is rounded to a whole code, and colours outside the gamut are clipped: blue is left out.
    both.forEach((code, at) => {
      if (at % 3 < 2) expect(Math.abs(left[at] + right[at] - code)).toBeLessThanOrEqual(1.5);
    });
  });

  it('[SM15] the lamps of a lamp set stand at the same places, photographed alike, seven kinds of light', () => {
    for (const { reference, tries } of lampSets) {
      const photos = [...(reference ? [reference.photo] : []), ...tries.map((one) => one.photos[0])];
      const windows = photos.map(({ scene }) => scene.windows[0].window);
      expect(new Set(windows.map(({ light }) => light)).size).toBe(7);
      const places = windows.map(({ lamps }) => [...new Set(lamps.map(({ xMm, yMm, zMm }) => `${xMm} ${yMm} ${zMm}`))]);
      for (const place of places) expect(place).toEqual(places[0]);
      for (const { camera } of photos) {
        const { seed, takenAt } = photos[0].camera;
        expect({ ...camera, seed, takenAt }).toEqual(photos[0].camera);
      }
    }
  });

  it('[SM15] the room changes nothing about what is true of the lamps, whose print is redder, alike, or lost', () => {
    const [dark, lit] = [truthOf('lamps-dark'), truthOf('lamps-lit')];
    expect(lit.tries).toEqual(dark.tries);
    const index = Object.fromEntries(dark.tries.map((one) => [one.name, one.redPrintIndex ?? NaN]));
    expect(index['Red and green mixed']).toBeGreaterThan(100);
    expect(index['Narrow amber LEDs']).toBeLessThan(20);
  });

  it('[SM15] the tries of paper and tape, and of the moved lamp, are told apart and have one best', () => {
    const [diffusers, sweep] = [truthOf('diffusers'), truthOf('sweep')].map(
      (truth) => truth.evennessBestFirst['scale'],
    );
    expect(diffusers.map((group) => group.length)).toEqual(diffusers.map(() => 1));
    expect(diffusers.at(-1)).toEqual(['Nothing between']);
    expect(sweep[0]).toEqual(['Left LED at 16 mm']);
    expect(sweep.at(-1)).toEqual(['Left LED at 60 mm']);
  });

  it('[SM15] a shading lens lets cos^n of the light through, n as given', () => {
    const sheet: Scene = { windows: [], roomLight: 0.008, sheet: true };
    const camera = { ...exact(onStand), veil: 0, blurPx: 0 };
    const even = renderCodes(sheet, camera);
    const shaded = renderCodes(sheet, { ...camera, shading: 4 });
    const middle = 3 * (38 * 200 + 100) + 1;
    expect(shaded[middle] / even[middle]).toBeWithin(1, 1e-4);
    // The first pixel's centre, 99.5 and 37.5 pixels from the axis; two codes of about 10 000 for rounding.
    const cosine = Math.cos(Math.atan(Math.hypot(99.5, 37.5) / focalLengthPx(85, 200, 76)));
    expect(shaded[1] / even[1]).toBeWithin(cosine ** 4, 2e-4);
  });
});
