import { describe, expect, it } from 'vitest';
import { useLampOff, type LampOffUse } from '../../../core/preparation/lamp-off-use';
import type { PhotoInLight } from '../../../core/preparation/photo-in-light';
import type { RectifiedWindow } from '../../../core/window/rectified';
import { rectifyWindow } from '../../../core/window/rectify';
import { type DrawnScale, drawScale, place, pxPerMm } from './draw-scale';

const lampLight = (xMm: number): number => 0.3 + 0.2 * Math.exp(-((xMm - 12) ** 2) / 30);
const roomLight = 0.08;
/** Print lets 4 % of the lamp's light through and throws 10 % of the room's back. */
const [through, back] = [0.04, 0.1];

const straight = ({ linear }: PhotoInLight): RectifiedWindow =>
  rectifyWindow(linear, place.homography, place.widthMm, place.heightMm, pxPerMm);

const alone = drawScale({ name: 'lamp alone', light: lampLight, print: through });
const roomAlone = drawScale({ name: 'room', light: () => roomLight, print: back });
const lit: PhotoInLight = {
  ...alone,
  file: 'lit',
  sha256: 'lit',
  linear: { ...alone.linear, rgb: alone.linear.rgb.map((value, i) => value + roomAlone.linear.rgb[i]) },
};
const off = (changes: Partial<DrawnScale> = {}): PhotoInLight =>
  drawScale({ name: 'off', light: () => roomLight, print: back, ...changes });
const wanted = straight(alone).green.values;
const use = (photo: PhotoInLight): { window: RectifiedWindow; use: LampOffUse } =>
  useLampOff(lit, photo, place, straight(lit));

function largestError(window: RectifiedWindow): number {
  return window.green.values.reduce((most, value, i) => Math.max(most, Math.abs(value - wanted[i])), 0);
}

describe('useLampOff', () => {
  it.each([
    ['at the same settings', off()],
    ['a stop and a half longer', off({ camera: { exposureS: 0.1 * 2 ** 1.5 }, light: () => roomLight * 2 ** 1.5 })],
  ])('[CP1] %s: what is left is the light of the lamp alone', (_title, photo) => {
    const { window, use: done } = use(photo);
    expect(done).toMatchObject({ state: 'subtracted', negativeShare: 0 });
    // Single precision.
    expect(largestError(window)).toBeLessThan(1e-6);
  });

  it('[CP1] a frame that moved by 0.2 mm is laid on the lit photo', () => {
    const { window, use: done } = use(off({ movedMm: 0.2 }));
    if (done.state !== 'subtracted') throw new Error(done.reason);
    expect(done.registration?.shiftMm.xMm).toBeWithin(0.2, 0.03);
    // Left as it lay, the room's light on the strokes' edges would be off by 0.9 of it; half a pixel is 0.05 mm.
    const errors = window.green.values.map((value, i) => Math.abs(value - wanted[i]));
    expect([...errors].sort((a, b) => a - b)[Math.floor(0.95 * errors.length)]).toBeLessThan(0.1 * roomLight);
  });

  it('[CP1, CP2] noise of 10 % a pixel in the lamp-off photo does not hinder it', () => {
    expect(use(off({ noise: 0.1 })).use.state).toBe('subtracted');
  });

  it('[CP1] a black photo of a dark room is subtracted although no print is to be seen in it', () => {
    const { window, use: done } = use(off({ light: () => 0.0004, print: 1, noise: 0.5 }));
    expect(done).toMatchObject({ state: 'subtracted', registration: null });
    expect(window.green.values[0]).toBeLessThan(straight(lit).green.values[0]);
  });

  it('[CP1] what comes out below 0 is 0 and counted', () => {
    // A second lamp, which burned at the left end of the room photo only.
    const bright = off({ light: (xMm) => roomLight + 0.6 * Math.exp(-((xMm / 4) ** 2)) });
    const { window, use: done } = use(bright);
    if (done.state !== 'subtracted') throw new Error(done.reason);
    // It outshines the lamp's 0.3 up to 3.3 mm.
    expect(done.negativeShare).toBeWithin(3.3 / 30, 0.01);
    expect(done.negatives).toBeGreaterThan(3 * 3.2 * 10 * 80);
    expect(Math.min(...window.green.values)).toBe(0);
  });

  it.each<[RegExp, PhotoInLight]>([
    [/the frame moved by 0\.6 mm/, off({ movedMm: 0.6 })],
    [/print does not lie where it lies/, off({ movedMm: 4 })],
    [/print does not lie where it lies/, off({ print: 1, noise: 0.05 })],
    [/exposure of the lamp-off photo is not known/, { ...off(), camera: { whiteBalance: 'manual' } }],
    [/focal lengths differ/, off({ camera: { focalLengthMm: 35 } })],
    [/f-numbers differ/, off({ camera: { fNumber: 5.6 } })],
    [/2\.3 EV apart/, off({ camera: { exposureS: 0.5 } })],
    [/another camera/, off({ camera: { model: 'Two' } })],
    [/its frame is 300 x 160 px/, off({ frame: { widthPx: 300, heightPx: 160 } })],
    [/overexposed/, off({ clipped: true })],
    [/as if the lamps burned/, off({ light: () => 0.5 })],
    [/the lit photo itself/, { ...off(), sha256: 'lit' }],
  ])('[CP1] refused: %s, and the window stays as it was', (reason, photo) => {
    const { window, use: done } = use(photo);
    expect(done.state === 'refused' && done.reason).toMatch(reason);
    expect(largestError(window)).toBeGreaterThan(roomLight / 2);
  });

  it('[CP1] an unprinted window cannot be seen to move, and needs no registration', () => {
    const plain = drawScale({ name: 'plain', light: lampLight, print: 1 });
    const room = off({ print: 1 });
    const { use: done } = useLampOff(plain, room, place, straight(plain));
    expect(done).toMatchObject({ state: 'subtracted', registration: null });
  });
});
