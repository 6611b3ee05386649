import { t60Arrangements } from '../arrangements';
import type { Sample } from '../sample-list';
import { alone, onStand, type SampleSet, taken } from './set';

const scene = alone(t60Arrangements.warmWhiteBare);

/** One exposure value apart, from dark to overexposed. */
const exposuresS = [1 / 40, 1 / 20, 1 / 10, 1 / 5, 2 / 5];

const photos = exposuresS.map((exposureS, n): Sample => {
  const camera = taken(onStand, 20, n, { exposureS, response: { kind: 'contrasty', strength: 0.4 } });
  return { file: `bracket-${n + 1}.jpg`, scene, camera, encoding: null };
});

/** One scene from a stand in five exposures: what an unknown tone curve can be recovered from. */
export const bracket: SampleSet = {
  name: 'bracket',
  about: 'One scene in five exposures, one exposure value apart; the camera has an S-shaped tone curve',
  room: 'dark',
  reference: null,
  tries: [{ name: 'Bare warm-white LEDs, 8 mm behind', photos }],
};
