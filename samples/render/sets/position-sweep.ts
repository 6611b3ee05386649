import { t60 } from '../arrangements';
import type { Lamp } from '../light/lamp';
import type { Sample } from '../sample-list';
import { alone, held, off, onStand, type SampleSet, taken } from './set';

const led = (xMm: number): Lamp => ({ light: 'warm-white', xMm, yMm: 9, zMm: 24, lobe: 1, flux: 22 });
const rightXMm = 70;
/** From the window's end to beside the other lamp: the evenest place lies between. */
const placesMm = [4, 16, 28, 40, 50, 60];

/** A corner of this camera's photos gets 5 per cent less light than the middle. */
const shaded = { ...onStand, shading: 1.8 };

const withLeftAt = (xMm: number) => t60('warm-white', [led(xMm), led(rightXMm)], { diffuseShare: 0.3, diffuserMm: 2 });

const named = (xMm: number) =>
  [xMm, rightXMm].map((x, i) => ({ name: ['left', 'right'][i], positionMm: [x, 9, 24], currentMa: 10, on: true }));

const flatField: Sample = {
  file: 'sweep-flat-field.jpg',
  scene: { windows: [], roomLight: 0.02, sheet: true },
  camera: taken(shaded, 18, 10),
  encoding: 'srgb',
};

const printPhoto: Sample = {
  file: 'sweep-print.jpg',
  scene: alone(off(withLeftAt(16)), 0.02),
  camera: held(taken(shaded, 18, 11), 3),
  encoding: 'srgb',
};

/** One of two lamps moved along the scale, by a lens that shades its corners; the flat field and the print under room light beside. */
export const positionSweep: SampleSet = {
  name: 'sweep',
  about:
    'The left LED moved along the scale; the lens shades the corners, a flat field and a photo of the print lie beside',
  room: 'dark',
  reference: null,
  tries: placesMm.map((xMm, n) => ({
    name: `Left LED at ${xMm} mm`,
    photos: [
      {
        file: `sweep-${xMm}-mm.jpg`,
        scene: alone(withLeftAt(xMm)),
        camera: held(taken(shaded, 18, n), n),
        encoding: 'srgb',
      },
    ],
    lamps: named(xMm),
  })),
  helpers: { flatField, printPhoto },
};
