import { describe, expect, it } from 'vitest';
import { readGatePhoto, type GatePhoto } from '../../support/gate-photo';

/** Taken from farther away, with the window left of the middle. */
const aside: GatePhoto['camera'] = {
  pose: { yawDeg: -1, pitchDeg: 1, rollDeg: 0.2, framedMm: 76, aimMm: [26, 7] },
};

describe('a print photo whose corners are given', () => {
  // 13 x 13 x 448 x 180 = 13.6 megapixels: over the 12.5 to which a photo is reduced for the search.
  it('[SE6] is laid by them, in the pixels of its file, also where that has many', async () => {
    const reading = await readGatePhoto({ printPhoto: { camera: aside, enlargedBy: 13 }, givesPrintCorners: true });
    expect(reading.redPrint.maskFrom).toBe('printPhoto');
    expect(reading.gates.map(({ code }) => code)).not.toContain('PRINT_PHOTO_UNUSED');
  });
});
