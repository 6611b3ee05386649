import { describe, expect, it } from 'vitest';
import type { Corners } from '../../../../core/base/points';
import { findStripes, stripeCandidates } from '../../../../core/reading/checks/stripes';
import { homographyFromCorners, photoPointOf } from '../../../../core/window/homography';
import { seededRandom } from '../../../support/seeded-random';
import { drawGlowMap } from '../draw-glow';

const photo = { widthPx: 1500, heightPx: 700, pxPerMm: 10 };
/** 90 x 24 mm at 10 px a mm, turned by two degrees on the sensor. */
const corners: Corners = [
  { column: 300, row: 220 },
  { column: 1199.5, row: 251.4 },
  { column: 1191.1, row: 491.3 },
  { column: 291.6, row: 459.8 },
];
const homography = homographyFromCorners(corners, 90, 24);

/** Two bare lamps behind the scale, at (22, 12) and (68, 12). */
const lamps = (xMm: number, yMm: number): number =>
  0.05 + [22, 68].reduce((sum, lamp) => sum + 0.4 / (1 + ((xMm - lamp) ** 2 + (yMm - 12) ** 2) / 81) ** 2, 0);

interface Drawn {
  readonly light?: (xMm: number, yMm: number) => number;
  readonly share?: number;
  readonly cycles?: number;
  readonly along?: 'rows' | 'columns';
  readonly noise?: number;
  readonly isPrint?: (xMm: number, yMm: number) => boolean;
}

/** The glow with stripes of `share` from trough to crest, along the photo's rows or columns. */
function drawStripes({ light = lamps, share = 0, cycles = 25, along = 'rows', noise = 0.01, isPrint }: Drawn) {
  const random = seededRandom(17);
  return drawGlowMap(
    90,
    24,
    (xMm, yMm) => {
      const { column, row } = photoPointOf(homography, { xMm, yMm });
      const turns = cycles * (along === 'rows' ? row / photo.heightPx : column / photo.widthPx);
      const here = light(xMm, yMm) * (1 + (share / 2) * Math.cos(2 * Math.PI * turns + 0.7));
      const grain = 1 + noise * (random() + random() - 1) * Math.sqrt(6);
      return [0.9 * here * grain, 0.5 * here * grain, 0.2 * here * grain];
    },
    isPrint,
  );
}
const found = (drawn: Drawn) => findStripes(drawStripes(drawn), homography, photo);

/** Ticks 2 mm apart and a level line, with figures above them: print stands in regular rows and columns. */
const scale = (xMm: number, yMm: number): boolean =>
  (Math.abs(((xMm + 1) % 2) - 1) < 0.3 && yMm > 9 && yMm < 11) ||
  Math.abs(yMm - 11) < 0.3 ||
  (yMm > 4 && yMm < 7 && xMm % 9 < 4);

describe('findStripes', () => {
  it.each([
    [0.02, 25, 'rows'],
    [0.06, 25, 'rows'],
    [0.02, 33, 'rows'],
    [0.06, 18, 'rows'],
    [0.02, 30, 'columns'],
    [0.06, 22, 'columns'],
  ] as const)(
    '[CK2] stripes of %d, %d over the photo, along %s, on two lamps behind a scale',
    (share, cycles, along) => {
      const stripes = found({ share, cycles, along, isPrint: scale });
      expect(stripes?.along).toBe(along);
      // A quarter of the height: print hides part of the wave and the lamps' own light is taken out with it.
      expect(stripes?.peakToPeak).toBeWithin(share, 0.25 * share);
      // Half a cycle over a window that is 240 of 700 px high, or 900 of 1500 px wide.
      expect(stripes?.cyclesInPhoto).toBeWithin(cycles, along === 'rows' ? 1.6 : 0.9);
    },
  );

  it.each<[string, Drawn]>([
    ['two bare lamps', {}],
    ['two bare lamps behind a scale', { isPrint: scale }],
    ['even light with 5 % of noise', { light: () => 0.4, noise: 0.05 }],
    ['a light that falls off to one end', { light: (x) => Math.exp(-x / 30) }],
    [
      'eight lamps in a row, whose spots are as regular as stripes',
      {
        light: (x, y) => 0.3 + 0.12 * Math.exp(-((y - 12) ** 2) / 18) * Math.cos((2 * Math.PI * (x - 5)) / 11.4),
      },
    ],
    ['stripes of a slant that no sensor makes', { light: (x, y) => 0.4 * (1 + 0.03 * Math.cos(2 * (x + y))) }],
    ['two stripes only over the glow', { light: (_, y) => 0.4 * (1 + 0.05 * Math.cos((4 * Math.PI * y) / 24)) }],
  ])('[CK2] none in %s', (_, drawn) => {
    expect(found(drawn)).toBeNull();
  });

  it('[CK2] noise of 10 and 20 % makes none, sharp patch or not, and hides none that is strong', () => {
    const upright = homographyFromCorners(
      [
        { column: 300, row: 220 },
        { column: 900, row: 221 },
        { column: 899, row: 421 },
        { column: 298, row: 419 },
      ],
      60,
      20,
    );
    const drawnMap = (noise: number, seed: number, patch: number, share = 0) => {
      const random = seededRandom(seed);
      return drawGlowMap(60, 20, (x, y) => {
        const here = x > 20 && x < 25 && y > 6 && y < 10 ? patch : 1;
        const { row } = photoPointOf(upright, { xMm: x, yMm: y });
        const wave = 1 + (share / 2) * Math.cos((2 * Math.PI * 30 * row) / photo.heightPx);
        const light = 0.4 * here * wave * Math.max(0.01, 1 + noise * (random() + random() - 1) * Math.sqrt(6));
        return [light, light, light];
      });
    };
    for (const [noise, patch] of [
      [0.1, 1],
      [0.1, 1.6],
      [0.2, 1],
    ]) {
      // Two of these 12 had stripes when only neighbouring waves were asked.
      for (let seed = 1; seed <= 12; seed++) {
        expect(findStripes(drawnMap(noise, 7 * seed + 3, patch), upright, photo), `${noise} ${seed}`).toBeNull();
      }
    }
    expect(findStripes(drawnMap(0.1, 10, 1, 0.06), upright, photo)?.peakToPeak).toBeWithin(0.06, 0.015);
  });

  it('[CK2] does not depend on the brightness', () => {
    const map = drawStripes({ share: 0.05 });
    const dim = { ...map, relLuminance: { ...map.relLuminance, values: map.relLuminance.values.map((v) => 0.02 * v) } };
    // Single precision of the logarithm.
    expect(findStripes(dim, homography, photo)?.peakToPeak).toBeWithin(
      findStripes(map, homography, photo)!.peakToPeak,
      1e-5,
    );
  });

  it('[CK2] nothing is altered, and a glow of no cells has none', () => {
    const map = drawStripes({ share: 0.05, isPrint: scale });
    const before = [map.relLuminance.values.slice(), map.glow.values.slice()];
    stripeCandidates(map, homography, photo);
    expect([map.relLuminance.values, map.glow.values]).toEqual(before);
    expect(findStripes(drawStripes({ isPrint: () => true }), homography, photo)).toBeNull();
    const narrow = drawStripes({ isPrint: (x, y) => y > 1.6 || x > 40 });
    expect(findStripes(narrow, homography, photo)).toBeNull();
  });
});
