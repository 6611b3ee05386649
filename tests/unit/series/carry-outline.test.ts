import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { LinearPhoto } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import type { CarriedOutline } from '../../../core/contract/carry';
import type { WindowInPhoto } from '../../../core/contract/measure';
import { carryWindow } from '../../../core/engine';
import { createDecoder } from '../../../core/node/decode-process';
import { carryOutline } from '../../../core/series/carry-outline';
import { findWindows } from '../../../core/window/search/find-windows';
import type { PhotoTruth } from '../../../samples/render/truth-file';
import { cornerDistance } from '../../support/corner-distance';

const folder = path.resolve('samples/photos');
const decoder = createDecoder();
afterAll(() => decoder.close());

type Pairs = readonly (readonly [number, number])[];
const asCorners = (pairs: Pairs): Corners => pairs.map(([column, row]) => ({ column, row })) as unknown as Corners;
const photoRef = (file: string) => ({
  file,
  path: path.join(folder, file),
  encoding: 'profile' as const,
  encodingStated: false,
  exposure: {},
});
const truthOf = (file: string) =>
  (JSON.parse(readFileSync(path.join(folder, `${file}.truth.json`), 'utf8')) as PhotoTruth).windows[0];
const windowOf = (sizeMm: WindowInPhoto['sizeMm'], pairs: Pairs, shape: WindowInPhoto['spec']['shape']) => ({
  spec: { name: 'window', shape, print: 'auto' as const, leaveOut: [], paintedRed: [], paintedDark: [] },
  sizeMm,
  corners: asCorners(pairs),
});

/** The true outline of one sample carried to another. */
function carry(from: string, to: string): Promise<CarriedOutline> {
  const { widthMm, heightMm, cornersPx } = truthOf(from);
  const window = windowOf({ widthMm, heightMm }, cornersPx, { kind: from.startsWith('m4') ? 'ellipse' : 'rectangle' });
  const ports = { decodePhoto: decoder.decode.bind(decoder), nowMs: () => performance.now() };
  return carryWindow({ from: { photo: photoRef(from), window }, to: photoRef(to) }, ports);
}

/** A plain lit rectangle, with no mark on it. */
function plainPhoto(left: number, light: number): LinearPhoto {
  const [width, height] = [640, 320];
  const rgb = new Float32Array(3 * width * height).fill(0.004);
  for (let row = 100; row < 200; row++) {
    for (let column = left; column < left + 400; column++) rgb.fill(light, 3 * (row * width + column), 3 * (row * width + column) + 3);
  } // prettier-ignore
  return {
    region: { column: 0, row: 0, width, height },
    widthPx: width,
    heightPx: height,
    rgb,
    flags: new Uint8Array(width * height),
    colourSpace: 'sRGB',
    colourSpaceAssumed: false,
    response: 'linear',
  };
}

describe('an outline carried over to another photo', () => {
  it('[SE8] is laid on the print, also when the camera was moved and turned between them', async () => {
    for (const to of ['t60-amber-bare.jpg', 't60-turned.jpg']) {
      const carried = await carry('t60-warm-white-bare.jpg', to);
      if (carried.by !== 'print') throw new Error(`carried by ${carried.by}`);
      // A share of the window's width: 0.1 mm of 92.
      expect(cornerDistance(asCorners(carried.cornersPx), truthOf(to).cornersPx)).toBeLessThan(0.0011);
    }
  });

  it('[SE8] says how much of its light is left: a lamp-off photo has hardly any, a dark exposure is no dark lamp', async () => {
    const lampOff = await carry('t60-room-lit.jpg', 't60-room-lit-lamps-off.jpg');
    expect(lampOff.lightRatio).toBeWithin(0.08, 0.02);
    expect(lampOff.isDark).toBe(true);
    // A sixteenth of the exposure, and other lamps: within a factor of two.
    expect((await carry('t60-warm-white-bare.jpg', 't60-dark.jpg')).lightRatio).toBeWithin(1.2, 0.7);
  });

  it('[SE8] is not carried to the photo of another window, and the reason is said', async () => {
    const carried = await carry('m4-filament.jpg', 't60-amber-bare.jpg');
    expect(carried).toMatchObject({ by: null, reason: 'the print of this window was not found in it' });
  });

  it('[SE8] without print it is the lit window found in the same place, and no other', () => {
    const window = windowOf(null, [[100, 100], [500, 100], [500, 200], [100, 200]], { kind: 'rectangle' }); // prettier-ignore
    const carriedTo = (photo: LinearPhoto): CarriedOutline =>
      carryOutline(window, plainPhoto(100, 0.5), { linear: photo, searched: () => findWindows(photo) }, 1);
    const near = carriedTo(plainPhoto(108, 0.25));
    if (near.by !== 'search') throw new Error(`carried by ${near.by}`);
    expect(near.cornersPx[0][0]).toBeWithin(108, 1);
    expect(near.lightRatio).toBeWithin(0.5, 0.02);
    expect(carriedTo(plainPhoto(200, 0.25))).toMatchObject({
      by: null,
      reason: expect.stringMatching(/no print to go by/) as string,
    });
    expect(carriedTo(plainPhoto(100, 0.004))).toMatchObject({ by: 'place', isDark: true });
  });
});
