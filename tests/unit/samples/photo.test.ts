import ExifReader from 'exifreader';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { t60Arrangements } from '../../../samples/render/arrangements';
import { type Camera, renderCodes, renderPhoto, type Scene } from '../../../samples/render/index';
import { samples } from '../../../samples/render/sample-list';

const evenWindow = { ...t60Arrangements.warmWhiteMoved, print: 'none' as const, box: { diffuseShare: 1 } };
const even: Scene = { roomLight: 0, windows: [{ window: evenWindow, leftMm: 0, topMm: 0 }] };
const plain: Camera = {
  ...samples[0].camera,
  widthPx: 420,
  heightPx: 170,
  response: { kind: 'linear' },
  colour: 'colorimetric',
  file: { kind: 'png', bits: 16 },
  blurPx: 0.8,
  veil: 0,
  noise: null,
};

/** Where the green channel crosses the middle between bezel and glow, along a line of the photo, in pixels; the bezel's slope is carried on to the edge. */
function crossing(codes: ArrayLike<number>, at: (i: number) => number, near: number): number {
  const around = Math.floor(near);
  const green = (i: number) => codes[3 * at(i) + 1];
  const outside = green(around - 3) + 1.5 * (green(around - 3) - green(around - 5));
  const inside = green(around + 4);
  expect(inside).toBeGreaterThan(4 * outside);
  const level = (outside + inside) / 2;
  for (let i = around - 3; i < around + 4; i++) {
    const [a, b] = [green(i), green(i + 1)];
    if (a < level && b >= level) return i + 0.5 + (level - a) / (b - a);
  }
  throw new Error('no edge on this line');
}

describe('rendered photos', () => {
  it("[SM3] an even window's left and top edges lie where the corners say, straight on", async () => {
    const camera = {
      ...plain,
      pose: { yawDeg: 0, pitchDeg: 0, rollDeg: 0, framedMm: 130, aimMm: [46.3, 8.9] as const },
    };
    const { truth } = await renderPhoto(even, camera);
    const codes = renderCodes(even, camera);
    const [[left, top]] = truth.windows[0].cornersPx;
    const middleRow = 85;
    const leftEdge = crossing(codes, (x) => middleRow * 420 + x, left);
    const topEdge = crossing(codes, (y) => y * 420 + 210, top);
    // The bezel's own slope of light moves the middle of the edge by some hundredths of a pixel.
    expect(leftEdge).toBeWithin(left, 0.1);
    expect(topEdge).toBeWithin(top, 0.1);
  });

  it('[SM3] the upper edge of a tilted window lies on the line between its corners', async () => {
    const camera = {
      ...plain,
      pose: { yawDeg: 24, pitchDeg: -11, rollDeg: 3, framedMm: 140, aimMm: [46, 9] as const },
    };
    const { truth } = await renderPhoto(even, camera);
    const codes = renderCodes(even, camera);
    const [[leftX, leftY], [rightX, rightY]] = truth.windows[0].cornersPx;
    for (const column of [120, 187, 260]) {
      const share = (column + 0.5 - leftX) / (rightX - leftX);
      const wanted = leftY + share * (rightY - leftY);
      expect(crossing(codes, (y) => y * 420 + column, wanted)).toBeWithin(wanted, 0.1);
    }
    expect(truth.windows[0].tiltDeg).toBeWithin(26.26, 0.1); // acos(cos 24 cos 11)
  });

  it('[SM2] the same scene, camera and seed give the same bytes, another seed does not', async () => {
    const noisy = { ...plain, noise: { fullWell: 9000, readNoise: 7 }, seed: 31 };
    const [first, second, other] = [
      await renderPhoto(even, noisy),
      await renderPhoto(even, noisy),
      await renderPhoto(even, { ...noisy, seed: 32 }),
    ];
    expect(first.bytes.equals(second.bytes)).toBe(true);
    expect(first.bytes.equals(other.bytes)).toBe(false);
    expect(first.truth).toEqual(second.truth);
  });

  it('[SM4] twice the exposure time doubles linear codes', () => {
    const at = 3 * (85 * 420 + 210);
    const codes = renderCodes(even, { ...plain, exposureS: 1 / 50 });
    const longer = renderCodes(even, { ...plain, exposureS: 1 / 25 });
    expect(codes[at]).toBeGreaterThan(1000);
    expect(longer[at] / codes[at]).toBeWithin(2, 0.001); // rounding to 16 bits
  });

  it.each(['png', 'tiff'] as const)(
    '[SM5] a 16-bit %s holds the codes exactly, with EXIF and profile',
    async (kind) => {
      const camera: Camera = { ...plain, colourSpace: 'wide', profile: true, file: { kind, bits: 16 } };
      const { bytes } = await renderPhoto(even, camera);
      const meta = await sharp(bytes).metadata();
      expect([meta.width, meta.height, meta.depth]).toEqual([420, 170, 'ushort']);
      expect(meta.icc?.subarray(36, 40).toString('latin1')).toBe('acsp');
      const exif = ExifReader.load(bytes);
      expect([exif.Make?.description, exif.ExposureTime?.description, exif.WhiteBalance?.value]).toEqual([
        'Brindle',
        '1/10',
        1,
      ]);
      const raw = await sharp(bytes, { ignoreIcc: true }).toColourspace('rgb16').raw({ depth: 'ushort' }).toBuffer();
      const codes = new Uint16Array(raw.buffer, raw.byteOffset, raw.length / 2);
      expect(Buffer.from(codes).equals(Buffer.from(renderCodes(even, camera)))).toBe(true);
    },
  );

  it('[SM5] a photo stored turned by orientation 6 stands upright after turning', async () => {
    const camera: Camera = { ...plain, file: { kind: 'png', bits: 8 }, orientation: 6 };
    const { bytes } = await renderPhoto(even, camera);
    expect((await sharp(bytes).metadata()).width).toBe(170);
    const upright = await sharp(bytes).rotate().raw().toBuffer();
    expect(upright.equals(Buffer.from(renderCodes(even, camera)))).toBe(true);
  });
});
