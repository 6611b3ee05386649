import { type LightName, lights, tristimulus, type Xyz } from '../light/spectra';
import { uvPrime } from '../truth/colour';

/** What shines behind a window: kinds of light, each with its flux. */
export type Shining = readonly (readonly [LightName, number])[];

/** Two lights of so much flux together, in the ratio that comes nearest to the filament in u'v': as a restorer tunes them. */
function tuned(first: LightName, second: LightName, flux: number): Shining {
  const glowOf = (share: number): readonly [number, number] => {
    const [a, b] = [first, second].map((name) => tristimulus(lights[name]));
    return uvPrime([0, 1, 2].map((axis) => share * a[axis] + (1 - share) * b[axis]) as unknown as Xyz);
  };
  const [wantedU, wantedV] = uvPrime(tristimulus(lights.filament));
  const missOf = (share: number): number => {
    const [u, v] = glowOf(share);
    return Math.hypot(u - wantedU, v - wantedV);
  };
  const shares = Array.from({ length: 999 }, (_, i) => (i + 1) / 1000);
  const best = shares.reduce((a, b) => (missOf(b) < missOf(a) ? b : a));
  return [
    [first, best * flux],
    [second, (1 - best) * flux],
  ];
}

/** Lamps by the light as a user states it. Fluxes fill the camera's red channel alike. */
export const lampLights = {
  filament: [['filament', 15]],
  'warm-white': [['warm-white', 14]],
  'cool-white': [['cool-white', 20]],
  'phosphor-amber': [['phosphor-amber', 11]],
  'narrow-amber': [['narrow-amber', 8]],
  'red+green': tuned('red-led', 'green-led', 10.6),
  'red+yellow-green': tuned('red-led', 'yellow-green-led', 10.2),
  red: [['red-led', 3.4]],
} as const satisfies Record<string, Shining>;
