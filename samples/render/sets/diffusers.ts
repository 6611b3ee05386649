import { t60 } from '../arrangements';
import type { Box, Lamp, Shade } from '../light/lamp';
import { alone, held, onStand, type SampleSet, taken } from './set';

const leds: Lamp[] = [22, 70].map((xMm) => ({ light: 'warm-white', xMm, yMm: 9, zMm: 9, lobe: 2, flux: 13 }));

const tape = (transmission: number): Shade[] =>
  [22, 70].map((xMm) => ({ transmission, xMm, yMm: 9, halfWidthMm: 4, halfHeightMm: 4, softMm: 2.6 }));

/** What is between the same two lamps and the scale; paper takes light as well as spreading it. */
const between: readonly (readonly [string, string, Omit<Box, 'diffuseShare'>, number])[] = [
  ['Nothing between', 'bare', {}, 0.6],
  ['One sheet of tracing paper', 'one-sheet', { diffuserMm: 2 }, 0.9],
  ['Two sheets of tracing paper', 'two-sheets', { diffuserMm: 3.5 }, 0.8],
  ['Four sheets of tracing paper', 'four-sheets', { diffuserMm: 6 }, 0.65],
  ['Dense tape over the lamps', 'dense-tape', { shades: tape(0.15) }, 0.8],
  ['Two sheets and thin tape', 'sheets-and-tape', { diffuserMm: 3.5, shades: tape(0.86) }, 0.8],
];

/** Ways to spread the light of the same lamps, hand-held, with an S-shaped curve that nothing tells of. */
export const diffusers: SampleSet = {
  name: 'diffusers',
  about: 'The same two LEDs bare, behind paper and behind tape; the camera has an S-shaped tone curve',
  room: 'dark',
  reference: null,
  tries: between.map(([name, file, box, kept], n) => {
    const lamps = leds.map((lamp) => ({ ...lamp, flux: lamp.flux * kept }));
    const scene = alone(t60('warm-white', lamps, { diffuseShare: 0.7, ...box }));
    const camera = held(taken(onStand, 19, n, { response: { kind: 'contrasty', strength: 0.4 } }), n + 2);
    return { name, photos: [{ file: `diffusers-${file}.jpg`, scene, camera, encoding: null }] };
  }),
};
