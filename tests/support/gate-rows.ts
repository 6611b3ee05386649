import type { GateCode, GateLevel } from '../../core/contract/gates';
import type { Rgb } from './drawn-glass';
import { glowOf, type GatePhoto, straight } from './gate-photo';

/** A photo that raises a gate, and one close by that must not raise it at that level. */
export interface GateRow {
  readonly code: GateCode;
  readonly level: GateLevel;
  readonly shown: string;
  readonly photo: GatePhoto;
  readonly near: GatePhoto;
}

/** The usual photo, of which every other one is a change; its room is stated as dark, its print was found in it alone. */
export const plain: GatePhoto = {};

const lampsOff = (room: number): NonNullable<GatePhoto['lampOff']> => ({ glass: { room, light: () => [0, 0, 0] } });
const roomOf = (room: number): GatePhoto => ({ glass: { room }, lampOff: lampsOff(room) });
const white: Rgb = [1, 1, 1];
const hotSpot = (x: number, y: number): number => 0.3 + 0.6 * Math.exp(-((x - 12) ** 2 + (y - 6) ** 2) / 10);
const spotted = (tint: Rgb, exposureS: number): GatePhoto => ({
  glass: { light: glowOf(hotSpot, tint) },
  camera: { exposureS },
});
/** Light that falls to nothing towards both ends. */
const dim = (reachMm2: number): GatePhoto => ({
  glass: { light: glowOf((x) => 0.4 * Math.exp(-((x - 18) ** 2) / reachMm2)) },
});
const dimCorner: GatePhoto = {
  glass: { light: glowOf((x, y) => 0.4 * Math.exp(-((x - 12) ** 2 + (y - 6) ** 2) / 60) + 0.01) },
  camera: { exposureS: 0.05 },
};
const noisy = (fullWell: number): GatePhoto => ({ camera: { noise: { fullWell, readNoise: 1 } } });
const blurred = (blurPx: number): GatePhoto => ({ camera: { blurPx } });
const coarse = (widthPx: number): GatePhoto => ({ camera: { widthPx, heightPx: Math.round(0.4 * widthPx) } });
const seenFrom = (yawDeg: number): GatePhoto => ({ camera: { heightPx: 240, pose: { ...straight, yawDeg } } });
const aimedAt = (xMm: number): GatePhoto => ({ camera: { pose: { ...straight, aimMm: [xMm, 7] } } });
const short = (widthMm: number): GatePhoto => ({ glass: { widthMm, heightMm: 6, print: 'none' } });
/** Covered by something from the left. */
const covered = (toMm: number): GatePhoto => {
  const [left, right] = [0, toMm].map((xMm) => [{ xMm, yMm: 0 }, { xMm, yMm: 14 }]); // prettier-ignore
  return { spec: { leaveOut: [[...left, ...right.reverse()]] } };
};
const litFigures = (widthMm: number): GatePhoto => ({
  glass: { print: 'lit figures', widthMm },
  spec: { print: 'light' },
});
/** 4 x 3 mm of other light on an even glow, with a sharp edge. */
const patch = (added: Rgb): GatePhoto => {
  const even = glowOf(() => 0.35);
  const more = glowOf(() => 0.2, added);
  const isPatch = (x: number, y: number): boolean => x > 5 && x < 9 && y > 9 && y < 12;
  const light = (x: number, y: number): Rgb => {
    const [glow, extra] = [even(x, y), more(x, y)];
    return isPatch(x, y) ? [glow[0] + extra[0], glow[1] + extra[1], glow[2] + extra[2]] : glow;
  };
  return { glass: { light } };
};
const tinted = (tint: Rgb): GatePhoto => ({ glass: { light: glowOf(() => 0.35, tint) } });
const noted = (notes: NonNullable<GatePhoto['notes']>): GatePhoto => ({ notes });
const sized = (widthMm: number, heightMm: number): GatePhoto => ({ sizeMm: { widthMm, heightMm } });
const sheet = (print: 'none' | 'dark'): GatePhoto => ({
  flatField: {
    glass: { widthMm: 200, heightMm: 200, light: glowOf(() => 0.4, white), print },
    camera: { pose: { ...straight, aimMm: [100, print === 'none' ? 100 : 8] } },
  },
});

const row = (code: GateCode, level: GateLevel, shown: string, photo: GatePhoto, near: GatePhoto = plain): GateRow => ({
  code,
  level,
  shown,
  photo,
  near,
});

const inLitRoom = (light: number, room: number): GatePhoto => ({
  corners: 'search',
  room: 'lit',
  glass: { room, light: glowOf(() => light) },
});
const stepBack = { camera: { pose: { ...straight, framedMm: 76 }, widthPx: 532, heightPx: 214 } };
const unprinted: GatePhoto = { ...stepBack, glass: { print: 'none' }, spec: { print: 'none' } };

const someRoom = roomOf(0.1);
const noisyPhoto = noisy(100);
const softPhoto = blurred(2);
const coarsePhoto = coarse(320);
const nightMode = noted({ toneMappingHints: ['a night mode'] });
const stripes = { stripes: 0.025 };
const stepAside = seenFrom(40);

/** For every gate that one photo, with what goes with it, can raise. */
export const gateRows: readonly GateRow[] = [
  row('PHOTO_CLIPPED', 'refuse', 'a clipped hot spot', spotted(white, 0.13), spotted(white, 0.1)),
  row('PHOTO_CLIPPED', 'warn', 'the top of a hot spot clipped', spotted(white, 0.112), spotted(white, 0.1)),
  row(
    'RED_CLIPPED',
    'refuse',
    'red clipped in a warm spot',
    spotted([1, 0.72, 0.38], 0.12),
    spotted([1, 0.72, 0.38], 0.1),
  ),
  row(
    'BLUE_CLIPPED',
    'refuse',
    'blue clipped in a cool spot',
    spotted([0.5, 0.7, 1], 0.12),
    spotted([0.5, 0.7, 1], 0.1),
  ),
  row(
    'PHOTO_TOO_DARK',
    'refuse',
    'a fortieth of the exposure',
    { camera: { exposureS: 1 / 400 } },
    { camera: { exposureS: 1 / 200 } },
  ),
  row('PHOTO_TOO_DARK', 'warn', 'both ends nearly black', dim(40), dim(80)),
  row('PHOTO_NOISY', 'refuse', 'next to no light caught', noisy(5), noisyPhoto),
  row('PHOTO_NOISY', 'warn', 'a very high ISO', noisyPhoto, noisy(400)),
  row('PHOTO_NOT_SHARP', 'refuse', 'out of focus', blurred(7), softPhoto),
  row('PHOTO_NOT_SHARP', 'warn', 'a little out of focus', softPhoto, blurred(1.2)),
  row('RESOLUTION_LOW', 'refuse', '2.5 px a mm', coarse(160), coarsePhoto),
  row('RESOLUTION_LOW', 'warn', '5 px a mm', coarsePhoto),
  row('GLOW_TOO_SMALL', 'refuse', 'a window 7.6 mm long', short(7.6), short(8.4)),
  row('GLOW_TOO_SMALL', 'refuse', 'a window that is mostly covered', covered(30), covered(8)),
  row('GLOW_TOO_SMALL', 'refuse', 'a lit figure alone', litFigures(8.5), litFigures(36)),
  row('ROOM_LIGHT', 'refuse', 'a lit room, nothing to subtract', { room: 'lit' }),
  row('ROOM_LIGHT', 'refuse', 'half of the light from the room', roomOf(0.4), someRoom),
  row('ROOM_LIGHT', 'warn', 'a seventh of the light from the room', someRoom, roomOf(0.02)),
  row('ROOM_UNKNOWN', 'refuse', 'nothing said of the room', { room: 'unknown' }),
  row('ROOM_UNKNOWN', 'warn', 'a room stated dark', plain, roomOf(0)),
  row(
    'LAMP_OFF_MISMATCH',
    'warn',
    'another aperture',
    { glass: { room: 0.1 }, lampOff: { ...lampsOff(0.1), camera: { fNumber: 5.6 } } },
    someRoom,
  ),
  row(
    'LAMP_OFF_MISMATCH',
    'warn',
    'moved by 0.6 mm',
    { glass: { room: 0.1 }, lampOff: { ...lampsOff(0.1), ...aimedAt(18.6) } },
    someRoom,
  ),
  row('EXPOSURE_UNKNOWN', 'warn', 'no exposure in the notes', noted({ camera: { whiteBalance: 'manual' } })),
  row(
    'WHITE_BALANCE_AUTO',
    'warn',
    'automatic',
    noted({ camera: { whiteBalance: 'auto' } }),
    noted({ camera: { whiteBalance: 'manual' } }),
  ),
  row(
    'WHITE_BALANCE_AUTO',
    'warn',
    'not noted',
    noted({ camera: { whiteBalance: 'unknown' } }),
    noted({ camera: { whiteBalance: 'manual' } }),
  ),
  row('TONE_MAPPED', 'refuse', 'HDR', noted({ toneMappingHints: ['HDR rendering'] }), nightMode),
  row('TONE_MAPPED', 'warn', 'a night mode', nightMode),
  row(
    'PROFILE_MISSING',
    'warn',
    'no colour space named',
    { encoding: { encoding: 'profile', encodingStated: false }, notes: { exifSaysSrgb: false } },
    { encoding: { encoding: 'profile', encodingStated: false } },
  ),
  row(
    'ENCODING_DOUBTFUL',
    'warn',
    'a JPEG stated linear',
    { encoding: { encoding: 'linear', encodingStated: true } },
    { encoding: { encoding: 'linear', encodingStated: true }, notes: { format: 'png' } },
  ),
  row('BANDING', 'refuse', 'stripes of 6 %', { stripes: 0.06 }, stripes),
  row('BANDING', 'warn', 'stripes of 2.5 %', stripes, { stripes: 0.005 }),
  row('TILTED', 'refuse', 'from 58 degrees aside', seenFrom(58), stepAside),
  row('TILTED', 'warn', 'from 40 degrees aside', stepAside, seenFrom(32)),
  row(
    'WINDOW_TOO_WIDE',
    'warn',
    'near the sides of the photo',
    { camera: { pose: { ...straight, framedMm: 57 } } },
    { camera: { pose: { ...straight, framedMm: 62 } } },
  ),
  row('WINDOW_CUT', 'refuse', 'cut by the edge', aimedAt(32.3), aimedAt(32)),
  row('WINDOW_CUT', 'warn', 'touching the edge', aimedAt(32), aimedAt(31)),
  row('ASPECT_DIFFERS', 'warn', 'a wrong height', sized(36, 16), sized(36, 14.7)),
  row('ASPECT_DIFFERS', 'warn', 'width and height exchanged', sized(14, 36)),
  row('REFLECTION', 'warn', 'a cool patch with a sharp edge', patch([0.9, 1, 1.2]), patch([1, 0.72, 0.38])),
  row('REFLECTION', 'warn', 'the same at a high ISO', { ...patch([0.9, 1, 1.2]), ...noisy(400) }, noisy(20)),
  row('OUT_OF_GAMUT', 'warn', 'amber without blue', tinted([1, 0.4, 0]), tinted([1, 0.4, 0.1])),
  row('PRINT_MASK_SINGLE_PHOTO', 'note', 'print', plain, { glass: { print: 'none' } }),
  row('PRINT_MASK_SINGLE_PHOTO', 'note', 'lit figures', litFigures(36), {
    glass: { print: 'none' },
    spec: { print: 'none' },
  }),
  row(
    'PRINT_UNDECIDED',
    'refuse',
    'a glow that is dark but for a corner',
    { ...dimCorner, spec: { print: 'auto' } },
    { spec: { print: 'auto' } },
  ),
  row('RED_NOT_FOUND', 'note', 'no red print', { glass: { print: 'dark' } }),
  row('STROKE_TOO_THIN', 'refuse', 'a red line of 2 px', { ...coarse(250), glass: { redMm: 0.5 } }, coarse(320)),
  row('SIZE_ASSUMED', 'note', 'no size stated', { sizeMm: null }),
  row('OUTLINE_UNSURE', 'warn', 'hardly lighter than the panel', inLitRoom(0.05, 1), inLitRoom(0.2, 0.5)),
  row('OUTLINE_ON_FRAME', 'refuse', 'corners 1.6 mm outside, no print', { ...unprinted, corners: 1.6 }, unprinted),
  row(
    'OUTLINE_ON_FRAME',
    'refuse',
    'corners 4 mm outside',
    { ...stepBack, corners: 4, sizeMm: { widthMm: 44, heightMm: 22 } },
    { ...stepBack, corners: 0.5 },
  ),
  row(
    'OUTLINE_ON_FRAME',
    'warn',
    'corners 1.6 mm outside, the frame taken for print',
    { ...stepBack, corners: 1.6 },
    { ...stepBack, corners: 0.5 },
  ),
  row('FLAT_FIELD_UNUSABLE', 'warn', 'a sheet with print', sheet('dark'), sheet('none')),
  row(
    'PRINT_PHOTO_UNUSED',
    'warn',
    'a print photo of another window',
    { printPhoto: { glass: { room: 0.5, widthMm: 20, print: 'none' } } },
    { printPhoto: { glass: { room: 0.5 } } },
  ),
  row(
    'NOT_REGISTERED',
    'note',
    'a later photo without print',
    { seriesBegins: plain, glass: { print: 'none' } },
    { seriesBegins: plain, camera: { seed: 5 } },
  ),
];

/** Raised by what a photo is compared with or merged from, never by a photo alone. */
export const notByOnePhoto: Partial<Record<GateCode, string>> = {
  EXPOSURE_DIFFERS: 'of two photos',
  LENS_CHANGED: 'of two photos',
  WHITE_BALANCE_DIFFERS: 'of two photos',
  SCALE_DIFFERS: 'of two photos',
  BRACKET_UNUSABLE: 'of the photos of a bracket',
  TONE_CURVE: 'of a curve that photos of several exposures were measured for',
  RESPONSE_UNUSED: 'of a curve that photos of several exposures were measured for',
};
