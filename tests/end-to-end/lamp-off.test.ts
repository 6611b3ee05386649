import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Reading } from '../../core/contract/readings';
import { t60Arrangements as t60 } from '../../samples/render/arrangements';
import type { Camera } from '../../samples/render/index';
import { samples } from '../../samples/render/sample-list';
import { lampsOff, measureSet, type PhotoSet, type ShownPhoto } from '../support/photo-sets';

const { camera: jpegCamera } = samples.find(({ file }) => file === 't60-warm-white-diffuser.jpg')!;
const camera: Camera = { ...jpegCamera, widthPx: 960, heightPx: 320, response: { kind: 'srgb' } };
const window = t60.warmWhiteDiffuser;
/** White paper under the room's light, in the unit of the lamps: a fifth of the lamp's light comes back from the scale. */
const fifth = 0.0049;
const [night, bright] = [0.00012, 0.008];

const lit = (roomLight: number): ShownPhoto => ({ window, camera, roomLight });
const off = (roomLight: number, changes: Partial<Camera> = {}, more: Partial<ShownPhoto> = {}): ShownPhoto => ({
  window: lampsOff(window),
  camera: { ...camera, seed: 77, ...changes },
  roomLight,
  ...more,
});

/** The camera's notes taken out of the file. */
const withoutNotes = (bytes: Buffer): Promise<Buffer> => sharp(bytes).jpeg({ quality: 95 }).toBuffer();
const moved = { pose: { ...camera.pose, aimMm: [camera.pose.aimMm[0] + 1, camera.pose.aimMm[1]] as const } };

const sets = {
  'dark room': { lit: lit(night), room: 'dark' },
  'room light of a fifth': { lit: lit(fifth), lampOff: off(fifth) },
  'twice the time': { lit: lit(fifth), lampOff: off(fifth, { exposureS: 2 * camera.exposureS }) },
  'black lamp-off photo': { lit: lit(night), lampOff: off(night) },
  'bright room': { lit: lit(bright), lampOff: off(bright) },
  'unknown exposure': { lit: lit(fifth), lampOff: off(fifth, {}, { edit: withoutNotes }) },
  'other aperture': { lit: lit(fifth), lampOff: off(fifth, { fNumber: 5.6 }) },
  'frame moved': { lit: lit(fifth), lampOff: off(fifth, moved) },
} satisfies Record<string, PhotoSet>;

const readings = new Map<string, Reading>();
beforeAll(async () => {
  for (const [name, set] of Object.entries<PhotoSet>(sets)) {
    readings.set(name, await measureSet({ ...set, encoding: 'srgb' }));
  }
}, 600_000);

const read = (name: keyof typeof sets): Reading => readings.get(name)!;
const gatesOf = (name: keyof typeof sets, code: string) => read(name).gates.filter((gate) => gate.code === code);

describe('[CP1] a lamp-off photo', () => {
  it.each(['room light of a fifth', 'twice the time'] as const)('%s: as in the dark room', (name) => {
    const [dark, lighted] = [read('dark room'), read(name)];
    expect(lighted.luminance.ambientShare).toBeWithin(0.2, 0.02);
    const variation = ({ evenness }: Reading): number => evenness.coefficientOfVariation.value!;
    expect(variation(lighted)).toBeWithin(variation(dark), 0.015);
    const redness = lighted.redPrint.redness.value! / dark.redPrint.redness.value!;
    expect(redness).toBeWithin(1, 0.08);
    // Half of what counts as a difference between two tries.
    expect(lighted.evenness.score.value).toBeWithin(dark.evenness.score.value!, 1);
    expect(gatesOf(name, 'ROOM_LIGHT')).toMatchObject([{ level: 'warn', affects: ['evenness', 'redPrint'] }]);
    expect(gatesOf(name, 'LAMP_OFF_MISMATCH')).toEqual([]);
  });

  it('black, of a dark room: taken, with next to no room light', () => {
    const { luminance, redPrint } = read('black lamp-off photo');
    expect(luminance.ambientShare).toBeWithin(0.005, 0.005);
    expect(redPrint.redness.value).toBeWithin(read('dark room').redPrint.redness.value!, 0.002);
    expect(gatesOf('black lamp-off photo', 'LAMP_OFF_MISMATCH')).toEqual([]);
  });

  it('of a room with more than a quarter of the lamp’s light: subtracted, evenness given, red print refused', () => {
    const { luminance, evenness, redPrint } = read('bright room');
    expect(luminance.ambientShare).toBeGreaterThan(0.25);
    // More is subtracted from fewer codes: what counts as a difference between two tries.
    expect(evenness.score.value).toBeWithin(read('dark room').evenness.score.value!, 2);
    expect(redPrint.redness.value).toBeNull();
    expect(redPrint.redness.reason).toMatch(/Room light/);
    expect(gatesOf('bright room', 'ROOM_LIGHT').map(({ level }) => level)).toEqual(['refuse', 'warn']);
  });

  it.each([
    ['unknown exposure', /exposure of the lamp-off photo is not known/],
    ['other aperture', /f-numbers differ/],
    ['frame moved', /the frame moved by 1\.0 mm/],
  ] as const)('%s: not subtracted, with the reason', (name, reason) => {
    const [gate] = gatesOf(name, 'LAMP_OFF_MISMATCH');
    expect(gate.level).toBe('warn');
    expect(gate.message).toMatch(reason);
    expect(read(name).luminance.ambientShare).toBeNull();
    expect(read(name).redPrint.redness.value).toBeNull();
  });
});
