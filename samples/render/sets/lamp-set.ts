import { t60 } from '../arrangements';
import type { Sample } from '../sample-list';
import { lampLights, type Shining } from './lamp-lights';
import { alone, darkRoom, off, onStand, type SampleSet, taken } from './set';

/** Lamps of one arrangement: the name of the try, and the light as a user states it. */
const lamps = [
  ['Filament lamps', 'filament'],
  ['Warm-white LEDs', 'warm-white'],
  ['Cool-white LEDs', 'cool-white'],
  ['Amber LEDs with phosphor', 'phosphor-amber'],
  ['Narrow amber LEDs', 'narrow-amber'],
  ['Red and green mixed', 'red+green'],
  ['Red and yellow-green mixed', 'red+yellow-green'],
] as const;

const litBy = (light: string, shines: Shining) =>
  t60(
    light,
    [22, 70].flatMap((xMm) => shines.map(([name, flux]) => ({ light: name, xMm, yMm: 9, zMm: 12, lobe: 1.2, flux }))),
    { diffuseShare: 0.74 },
  );

/** The scale throws back a tenth of the filament's glow, a fifth of the dimmest lamp's: little enough to be subtracted. */
const lamplitRoom = 0.0025;

function lampSet(room: 'dark' | 'lit', day: number): SampleSet {
  const roomLight = room === 'dark' ? darkRoom : lamplitRoom;
  const [reference, ...tries] = lamps.map(([name, light], n) => {
    const file = `lamps-${room}-${light.replace('+', '-')}.jpg`;
    const camera = taken(onStand, day, n);
    return {
      name,
      photos: [{ file, scene: alone(litBy(light, lampLights[light]), roomLight), camera, encoding: 'srgb' as const }],
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
