import { t60 } from '../arrangements';
import type { LightName } from '../light/spectra';
import type { Sample } from '../sample-list';
import { alone, darkRoom, off, onStand, type SampleSet, taken } from './set';

/**
 * Lamps of one arrangement, by the light as a user states it: what shines, with its flux. Fluxes fill the camera's red channel alike;
 * the green lamp's share makes the mixture look like warm light.
 */
const lamps: readonly (readonly [string, string, readonly (readonly [LightName, number])[]])[] = [
  ['Filament lamps', 'filament', [['filament', 15]]],
  ['Warm-white LEDs', 'warm-white', [['warm-white', 14]]],
  ['Cool-white LEDs', 'cool-white', [['cool-white', 20]]],
  ['Amber LEDs with phosphor', 'phosphor-amber', [['phosphor-amber', 11]]],
  ['Narrow amber LEDs', 'narrow-amber', [['narrow-amber', 8]]],
  [
    'Red and green mixed',
    'red+green',
    [
      ['red-led', 4.4],
      ['green-led', 6.2],
    ],
  ],
  [
    'Red and yellow-green mixed',
    'red+yellow-green',
    [
      ['red-led', 3.4],
      ['yellow-green-led', 6.8],
    ],
  ],
];

const litBy = (light: string, shines: readonly (readonly [LightName, number])[]) =>
  t60(
    light,
    [22, 70].flatMap((xMm) => shines.map(([name, flux]) => ({ light: name, xMm, yMm: 9, zMm: 12, lobe: 1.2, flux }))),
    { diffuseShare: 0.74 },
  );

/** The scale throws back a tenth of the filament's glow, a fifth of the dimmest lamp's: little enough to be subtracted. */
const lamplitRoom = 0.0025;

function lampSet(room: 'dark' | 'lit', day: number): SampleSet {
  const roomLight = room === 'dark' ? darkRoom : lamplitRoom;
  const [reference, ...tries] = lamps.map(([name, light, shines], n) => {
    const file = `lamps-${room}-${light.replace('+', '-')}.jpg`;
    const camera = taken(onStand, day, n);
    return {
      name,
      photos: [{ file, scene: alone(litBy(light, shines), roomLight), camera, encoding: 'srgb' as const }],
    };
  });
  const lampOff: Sample = {
    file: `lamps-${room}-off.jpg`,
    scene: alone(off(litBy('filament', [])), roomLight),
    camera: taken(onStand, day, lamps.length),
    encoding: 'srgb',
  };
  return {
    name: `lamps-${room}`,
    about: `Seven kinds of lamps at the same two places, one exposure, ${room} room, and the lamps off`,
    room,
    reference: { photo: reference.photos[0] },
    tries,
    helpers: { lampOff },
  };
}

export const lampSets: readonly SampleSet[] = [lampSet('dark', 16), lampSet('lit', 17)];
