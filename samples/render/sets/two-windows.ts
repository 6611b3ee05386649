import { m4Arrangements, t60Arrangements } from '../arrangements';
import type { PlacedWindow, Scene } from '../front-panel';
import type { Sample } from '../sample-list';
import { darkRoom, off, onStand, type SampleSet, taken } from './set';

const camera = {
  ...onStand,
  widthPx: 1500,
  heightPx: 560,
  pose: { yawDeg: 0.7, pitchDeg: -2, rollDeg: 0.2, framedMm: 180, aimMm: [75, 19] as const },
};

const scale: PlacedWindow = { window: t60Arrangements.warmWhiteDiffuser, leftMm: 0, topMm: 10 };
const meter: PlacedWindow = { window: m4Arrangements.filament, leftMm: 112, topMm: 0 };
const dark = (one: PlacedWindow): PlacedWindow => ({ ...one, window: off(one.window) });

function photo(file: string, n: number, windows: Scene['windows']): Sample {
  return { file, scene: { roomLight: darkRoom, windows }, camera: taken(camera, 22, n), encoding: 'srgb' };
}

const both = photo('panel-led-and-filament.jpg', 0, [scale, meter]);

/** A tuner and its meter side by side: LEDs in the one, filament in the other; lit together and one at a time. */
export const twoWindows: SampleSet = {
  name: 'panel',
  about: 'LEDs behind the scale, the filament lamp still behind the meter: lit together and one at a time',
  room: 'dark',
  reference: { photo: both, window: 'meter' },
  tries: [
    { name: 'Scale with LEDs, meter with filament', photos: [both] },
    { name: 'Scale lit alone', photos: [photo('panel-scale-alone.jpg', 1, [scale, dark(meter)])] },
    { name: 'Meter lit alone', photos: [photo('panel-meter-alone.jpg', 2, [dark(scale), meter])] },
  ],
};
