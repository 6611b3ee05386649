import {
  blackDialArrangements as black,
  m4Arrangements as m4,
  smallArrangements as small,
  t60Arrangements as t60,
} from './arrangements';
import type { Camera } from './camera/settings';
import type { Scene } from './front-panel';
import type { LitWindow } from './window-scene';

/** One photo of the set: what it shows, how it was taken, and what a series file may state about its code values. */
export interface Sample {
  readonly file: string;
  readonly scene: Scene;
  readonly camera: Camera;
  /** What the owner of the camera knows about its code values; null when it must be taken as it comes. */
  readonly encoding: 'srgb' | 'linear' | null;
}

/** White paper on the panel at night: under half a per cent of the glow. */
const darkRoom = 0.00012;
const alone = (window: LitWindow, roomLight = darkRoom): Scene => ({
  roomLight,
  windows: [{ window, leftMm: 0, topMm: 0 }],
});

const t60Camera: Camera = {
  widthPx: 1600,
  heightPx: 640,
  focalLength35Mm: 85,
  pose: { yawDeg: 1.5, pitchDeg: -2, rollDeg: 0.4, framedMm: 157, aimMm: [46, 10] },
  exposureS: 0.1,
  fNumber: 4,
  iso: 100,
  colour: 'everyday',
  response: { kind: 'contrasty', strength: 0.4 },
  colourSpace: 'srgb',
  profile: false,
  blurPx: 0.7,
  veil: 0.003,
  noise: { fullWell: 20_000, readNoise: 6 },
  seed: 1,
  orientation: 1,
  file: { kind: 'jpeg', quality: 90 },
  takenAt: '2026:03:14 21:05:00',
};

/** The same maker's measuring camera: linear light, 16 bits, cropped close. */
const linearCamera: Camera = {
  ...t60Camera,
  widthPx: 1080,
  heightPx: 300,
  pose: { ...t60Camera.pose, framedMm: 155 },
  colour: 'colorimetric',
  response: { kind: 'linear' },
  profile: true,
  blurPx: 0.55,
  veil: 0.001,
  noise: { fullWell: 60_000, readNoise: 3 },
  file: { kind: 'png', bits: 16 },
};

const m4Camera: Camera = {
  ...t60Camera,
  widthPx: 1100,
  heightPx: 900,
  pose: { yawDeg: -1, pitchDeg: 1.5, rollDeg: -0.5, framedMm: 78, aimMm: [19, 17] },
  response: { kind: 'srgb' },
};

/** For the dial with lit figures: an sRGB curve, exposed for the figures. */
const dialCamera: Camera = {
  ...t60Camera,
  widthPx: 1400,
  heightPx: 420,
  exposureS: 0.05,
  response: { kind: 'srgb' },
};

/** Close to the two small windows. */
const closeCamera: Camera = {
  ...t60Camera,
  widthPx: 1100,
  heightPx: 420,
  pose: { yawDeg: 1, pitchDeg: -1.5, rollDeg: 0.3, framedMm: 55, aimMm: [19, 4] },
  exposureS: 0.08,
  response: { kind: 'srgb' },
};

let minute = 0;
/** Each photo a few minutes after the one before, with noise and hand-held framing of its own. */
function taken(camera: Camera, changes: Partial<Camera> = {}): Camera {
  minute += 4;
  const [hours, minutes] = [20 + Math.floor(minute / 60), minute % 60];
  const sway = ((minute * 7) % 11) / 11 - 0.5;
  const pose = changes.pose ?? {
    ...camera.pose,
    yawDeg: camera.pose.yawDeg + sway,
    rollDeg: camera.pose.rollDeg + 0.4 * sway,
    aimMm: [camera.pose.aimMm[0] + 2 * sway, camera.pose.aimMm[1] - sway] as const,
  };
  const takenAt = `2026:03:14 ${hours}:${String(minutes).padStart(2, '0')}:00`;
  return { ...camera, ...changes, pose, seed: minute, takenAt };
}

function sample(file: string, scene: Scene, camera: Camera, encoding: Sample['encoding'] = null): Sample {
  return { file, scene, camera, encoding };
}

const straight = t60Camera.pose;

/** The set but for what belongs to one of its photos, in the order of the evening it pretends to come from. */
const evening: readonly Sample[] = [
  sample('t60-filament.jpg', alone(t60.filament), taken(t60Camera)),
  sample('t60-amber-bare.jpg', alone(t60.amberBare), taken(t60Camera)),
  sample('t60-warm-white-bare.jpg', alone(t60.warmWhiteBare), taken(t60Camera)),
  sample('t60-warm-white-diffuser.jpg', alone(t60.warmWhiteDiffuser), taken(t60Camera)),
  sample('t60-warm-white-shade.jpg', alone(t60.warmWhiteShade), taken(t60Camera)),
  sample('t60-warm-white-moved.jpg', alone(t60.warmWhiteMoved), taken(t60Camera)),
  sample('t60-red-green.jpg', alone(t60.redGreen), taken(t60Camera)),
  sample('t60-cool-white.jpg', alone(t60.coolWhite), taken(t60Camera)),
  sample('t60-filament-linear.png', alone(t60.filament), taken(linearCamera), 'linear'),
  sample('t60-warm-white-bare-linear.png', alone(t60.warmWhiteBare), taken(linearCamera), 'linear'),
  sample(
    't60-warm-white-diffuser-linear.tif',
    alone(t60.warmWhiteDiffuser),
    taken(linearCamera, { colourSpace: 'wide', profile: true, file: { kind: 'tiff', bits: 16 } }),
    'linear',
  ),
  sample(
    't60-tilted.jpg',
    alone(t60.warmWhiteDiffuser),
    taken(t60Camera, {
      heightPx: 700,
      pose: { ...straight, yawDeg: 27, pitchDeg: -9, rollDeg: 2 },
      response: { kind: 'srgb' },
      profile: true,
    }),
    'srgb',
  ),
  sample(
    't60-turned.jpg',
    alone(t60.warmWhiteMoved),
    taken(t60Camera, { orientation: 6, response: { kind: 'contrasty', strength: 0.3 }, heightPx: 800 }),
  ),
  sample(
    't60-wide-colour.jpg',
    alone(t60.warmWhiteBare),
    taken(t60Camera, { colourSpace: 'wide', profile: true, response: { kind: 'contrasty', strength: 0.25 } }),
  ),
  sample(
    't60-small.jpg',
    alone(t60.warmWhiteMoved),
    taken(t60Camera, {
      widthPx: 900,
      heightPx: 360,
      response: { kind: 'contrasty', strength: 0.55 },
      file: { kind: 'jpeg', quality: 82 },
    }),
  ),
  sample(
    't60-clipped.jpg',
    alone(t60.warmWhiteBare),
    taken(t60Camera, { exposureS: 0.4, response: { kind: 'contrasty', strength: 0.2 } }),
  ),
  sample(
    't60-dark.jpg',
    alone(t60.warmWhiteDiffuser),
    taken(t60Camera, { exposureS: 1 / 640, iso: 100, response: { kind: 'contrasty', strength: 0.35 } }),
  ),
  sample(
    't60-room-lit.jpg',
    alone(t60.warmWhiteDiffuser, 0.004),
    taken(t60Camera, { response: { kind: 'contrasty', strength: 0.6 } }),
  ),
  sample('m4-filament.jpg', alone(m4.filament), taken(m4Camera), 'srgb'),
  sample('m4-one-sided.jpg', alone(m4.oneSided), taken(m4Camera), 'srgb'),
  sample('m4-amber.jpg', alone(m4.amber), taken(m4Camera, { response: { kind: 'contrasty', strength: 0.3 } })),
  sample(
    'm4-one-sided-linear.png',
    alone(m4.oneSided),
    taken(linearCamera, {
      widthPx: 620,
      heightPx: 500,
      pose: { ...m4Camera.pose, framedMm: 70 },
    }),
    'linear',
  ),
  sample(
    'panel-both.jpg',
    {
      roomLight: darkRoom,
      windows: [
        { window: t60.warmWhiteDiffuser, leftMm: 0, topMm: 10 },
        { window: m4.oneSided, leftMm: 112, topMm: 0 },
      ],
    },
    taken(t60Camera, {
      widthPx: 1900,
      heightPx: 760,
      pose: { yawDeg: 1, pitchDeg: -3, rollDeg: 0.3, framedMm: 205, aimMm: [76, 19] },
      response: { kind: 'srgb' },
    }),
    'srgb',
  ),
  sample('t60-black-even.jpg', alone(black.even), taken(dialCamera), 'srgb'),
  sample('t60-black-spot.jpg', alone(black.spot), taken(dialCamera), 'srgb'),
  sample(
    't60-small-windows.jpg',
    {
      roomLight: darkRoom,
      windows: [
        { window: small.tuning, leftMm: 0, topMm: 0 },
        { window: small.band, leftMm: 26, topMm: 1 },
      ],
    },
    taken(closeCamera),
    'srgb',
  ),
];

/** The same view in the same light of the room, with the lamps off: a moment later, so the noise is another. */
function lampsOff(lit: string, file: string): Sample {
  const one = evening.find((photo) => photo.file === lit);
  if (!one) throw new RangeError(`no sample is called ${lit}`);
  const windows = one.scene.windows.map((placed) => ({ ...placed, window: { ...placed.window, lamps: [] } }));
  return { ...one, file, scene: { ...one.scene, windows }, camera: { ...one.camera, seed: one.camera.seed + 1000 } };
}

/** The whole set. */
export const samples: readonly Sample[] = [...evening, lampsOff('t60-room-lit.jpg', 't60-room-lit-lamps-off.jpg')];
