import { t60 } from '../arrangements';
import type { Lamp } from '../light/lamp';
import { alone, onStand, type SampleSet, taken } from './set';

/** Two unlike lamps: the right one is weaker and sits further in. */
const lamps: readonly (Lamp & { readonly name: string })[] = [
  { name: 'left', light: 'warm-white', xMm: 20, yMm: 9, zMm: 11, lobe: 1.5, flux: 14 },
  { name: 'right', light: 'warm-white', xMm: 66, yMm: 9, zMm: 11, lobe: 1.5, flux: 9 },
];

const lit: readonly (readonly [string, string, readonly string[]])[] = [
  ['Left lamp alone', 'left', ['left']],
  ['Right lamp alone', 'right', ['right']],
  ['Both lamps', 'both', ['left', 'right']],
];

/** Each lamp by itself and both together, from a stand and at one exposure: their light adds up. */
export const singleLamps: SampleSet = {
  name: 'single-lamps',
  about:
    'The left LED alone, the right one alone, both: one exposure, so that the light of the first two adds up to the third',
  room: 'dark',
  reference: null,
  tries: lit.map(([name, file, on], n) => ({
    name,
    photos: [
      {
        file: `single-${file}.jpg`,
        scene: alone(
          t60(
            'warm-white',
            lamps.filter((lamp) => on.includes(lamp.name)),
            { diffuseShare: 0.7 },
          ),
        ),
        camera: taken(onStand, 21, n, { exposureS: 1 / 15 }),
        encoding: 'srgb',
      },
    ],
    lamps: lamps.map((lamp) => ({
      name: lamp.name,
      positionMm: [lamp.xMm, lamp.yMm, lamp.zMm],
      currentMa: 10,
      on: on.includes(lamp.name),
    })),
  })),
};
