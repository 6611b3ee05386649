import { describe, expect, it } from 'vitest';
import type { Corners } from '../../../core/base/points';
import { linearisePhoto } from '../../../core/photo/linearise';
import { homographyFromCorners } from '../../../core/window/homography';
import { rectifyWindow } from '../../../core/window/rectify';
import { coarsestPxPerMm, reductionFor } from '../../../core/window/reduction';
import { drawDecoded, seededNumbers } from './draw-decoded';

function randomCodes(length: number, seed: number): Uint8Array {
  const next = seededNumbers(seed);
  return Uint8Array.from({ length }, () => Math.floor(next() * 256));
}

/** Corners of a window of 92 x 18 mm at so many pixels a mm, the right side shorter. */
function cornersAt(pxPerMm: number, rightShare = 1): Corners {
  const [width, height] = [92 * pxPerMm, 18 * pxPerMm];
  return [
    { column: 10, row: 10 },
    { column: 10 + width, row: 10 },
    { column: 10 + width, row: 10 + rightShare * height },
    { column: 10, row: 10 + height },
  ];
}

describe('linearisePhoto, reduced', () => {
  it('[PX14] gives the mean light of whole blocks, and the flags of any of their pixels', () => {
    const codes = randomCodes(3 * 11 * 8, 5);
    codes.set([255, 255, 255], 3 * (1 * 11 + 4));
    const whole = linearisePhoto(drawDecoded(codes, 11), 'srgb', true);
    const reduced = linearisePhoto(drawDecoded(codes, 11), 'srgb', true, 3);
    expect(reduced).toMatchObject({ reducedBy: 3, region: { column: 2, row: 5, width: 9, height: 6 } });
    for (let cell = 0; cell < 6; cell++) {
      const [left, top] = [3 * (cell % 3), 3 * Math.floor(cell / 3)];
      const pixels = [0, 1, 2].flatMap((r) => [0, 1, 2].map((c) => (top + r) * 11 + left + c));
      for (let c = 0; c < 3; c++) {
        const mean = pixels.reduce((sum, at) => sum + whole.rgb[3 * at + c], 0) / 9;
        expect(reduced.rgb[3 * cell + c]).toBeWithin(mean, 1e-6); // float32
      }
      expect(reduced.flags[cell]).toBe(pixels.reduce((all, at) => all | whole.flags[at], 0));
    }
  });

  it('[PX14] light from the decoder is averaged too', () => {
    const linear = Float32Array.from({ length: 3 * 4 * 2 }, (_, i) => i / 24);
    const { rgb, flags } = linearisePhoto(drawDecoded(null, 4, { linear, profileName: 'inks' }), 'profile', false, 2);
    expect([rgb.length, flags.length]).toEqual([6, 2]);
    expect(rgb[0]).toBeWithin((linear[0] + linear[3] + linear[12] + linear[15]) / 4, 1e-7);
  });

  it('[PX14] the straightened window hardly changes: the same means over the same area', () => {
    const [width, height] = [600, 260];
    const next = seededNumbers(9);
    const codes = Uint8Array.from({ length: 3 * width * height }, (_, i) => {
      const column = Math.floor(i / 3) % width;
      return 150 + 40 * Math.sin(column / 60) + 8 * next();
    });
    const corners: Corners = [
      { column: 32, row: 45 },
      { column: 560, row: 20 },
      { column: 552, row: 230 },
      { column: 40, row: 225 },
    ];
    const homography = homographyFromCorners(corners, 20, 7.5);
    const photo = drawDecoded(codes, width);
    expect(reductionFor([{ corners, sizeMm: { widthMm: 20, heightMm: 7.5 } }])).toBe(2);
    const [fine, coarse] = [1, 2].map((by) =>
      rectifyWindow(linearisePhoto(photo, 'srgb', true, by), homography, 20, 7.5, 10),
    );
    let [sum, squares] = [0, 0];
    fine.green.values.forEach((value, i) => {
      const apart = coarse.green.values[i] / value - 1;
      sum += apart;
      squares += apart * apart;
    });
    const count = fine.green.values.length;
    expect(sum / count).toBeWithin(0, 1e-4); // no light is lost or moved
    // Noise of 2.3 codes, 3.5 % of the light a pixel, weighs a little differently on the cells.
    expect(Math.sqrt(squares / count)).toBeLessThan(0.015);
  });
});

describe('reductionFor', () => {
  const sizeMm = { widthMm: 92, heightMm: 18 };

  it('[PX14] leaves 12 pixels a mm on the coarsest side', () => {
    const by = (pxPerMm: number, rightShare = 1): number =>
      reductionFor([{ corners: cornersAt(pxPerMm, rightShare), sizeMm }]);
    expect([by(8), by(12.01), by(23.9), by(24.1), by(51), by(24.1, 0.9)]).toEqual([1, 1, 1, 2, 4, 1]);
    expect(coarsestPxPerMm(cornersAt(20, 0.5), sizeMm)).toBeWithin(10, 1e-9);
  });

  it('[PX14] the window that needs most pixels decides; impossible corners do not stop it', () => {
    const [far, near] = [cornersAt(13), cornersAt(40)].map((corners) => ({ corners, sizeMm }));
    expect(reductionFor([near])).toBe(3);
    expect(reductionFor([near, far])).toBe(1);
    const point = { column: 5, row: 5 };
    expect(reductionFor([{ corners: [point, point, point, point], sizeMm: null }])).toBe(1);
    expect(reductionFor([])).toBe(1);
  });
});
