import { describe, expect, it } from 'vitest';
import { createMask, createPlane } from '../../../core/base/plane';
import { scoreEvenness } from '../../../core/reading/evenness';
import { hillsOf } from '../../../core/reading/spots-hills';
import { spotEntry, spotPlaceUncertaintyMm } from '../../../core/reading/spots';
import type { UncertaintyBasis } from '../../../core/reading/uncertainty';
import { findLitSpots } from '../../../core/reading/spots-lit';
import { nearestCells } from '../../../core/window/nearest-cell';
import { seededRandom } from '../../support/seeded-random';
import { drawGlowMap, rampLight, spotLight } from './draw-glow';

type Light = (x: number, y: number) => number;

const linear: UncertaintyBasis = {
  response: 'linear',
  isSmallCamera: false,
  light: 'warm-white',
  room: 'dark',
  ambientShare: 0,
  viewShare: 0.3,
  printMaskFrom: 'photo',
  printShare: 0.1,
  clippedShare: 0,
  cellNoise: 0,
  pxPerMm: 11,
  whiteBalance: 'manual',
};

/** Words of short strokes, 6 mm wide every 10 mm, and a line below: the rest is black. */
const isLit = (x: number, y: number): boolean =>
  (y > 4 && y < 8 && (x + 3) % 10 < 6 && x % 1.5 < 0.9) || (y > 13 && y < 14 && x > 4 && x < 56);
const isBlack = (x: number, y: number): boolean => !isLit(x, y);

function litMap(light: Light, isHidden = isBlack) {
  return drawGlowMap(60, 20, (x, y) => [light(x, y), light(x, y), light(x, y)], isHidden);
}

function residualOf(map: ReturnType<typeof litMap>) {
  const { pxPerMm, borderMm } = map;
  return scoreEvenness(map.relLuminance, map.glow, { pxPerMm, borderMm, viewingDistanceMm: 500 }).residual;
}

const spotsOf = (light: Light, isHidden?: (x: number, y: number) => boolean) => {
  const map = litMap(light, isHidden);
  return findLitSpots(map, residualOf(map));
};

describe('findLitSpots', () => {
  const behind = [
    ['a word', 20, 6],
    ['the line', 25, 13.5],
    ['the black between two words', 35, 6],
    ['the black between words and line', 31, 10],
    ['the end of the line', 55, 12],
  ] as const;

  it.each(behind)('[SP7] a lamp behind %s: one spot, its centre inside the plus-minus', (_, x0, y0) => {
    for (const sigmaMm of [3, 5]) {
      const spots = spotsOf(spotLight(2.1, sigmaMm, x0, y0)).filter(({ kind }) => kind === 'hot');
      expect(spots).toHaveLength(1);
      const [spot] = spots;
      const { plusMinusMm, atLeast, ratioToGlow } = spotEntry(spot, 0, linear);
      expect(spot.xMm).toBeWithin(x0, plusMinusMm);
      expect(spot.yMm).toBeWithin(y0, plusMinusMm);
      // Half-way to the line and up to the border belongs to a word, 10 mm: twice its root mean square and some width.
      expect(plusMinusMm).toBeLessThan(7);
      expect(atLeast).toBe(true);
      // The median of the figures lies a little over the light without the lamp.
      expect(ratioToGlow).toBeLessThan(2.15);
    }
  });

  it('[SP7] a lamp behind a word keeps its ratio; one behind black loses what no figure shows', () => {
    const seen = spotsOf(spotLight(2.1, 5, 20, 6))[0].ratioToGlow;
    const unseen = spotsOf(spotLight(2.1, 3, 31, 10))[0].ratioToGlow;
    expect(seen / 2.1).toBeWithin(1, 0.08);
    expect(unseen / 2.1).toBeLessThan(0.85);
  });

  it('[SP7] a larger spot has a larger diameter, about that of half its height', () => {
    const diameters = [3, 4.5, 6].map((sigmaMm) => spotsOf(spotLight(2, sigmaMm, 30, 8))[0].diameterMm);
    expect([...diameters].sort((a, b) => a - b)).toEqual(diameters);
    // Of ln: 2.5 sigma; the gaps of figures and line leave it open by 30 %.
    diameters.forEach((diameter, i) => expect(diameter / (2.5 * (3 + 1.5 * i))).toBeWithin(1, 0.3));
  });

  it('[SP7] two lamps are two where a figure between them is dimmer, one where nothing lit shows it', () => {
    const two = (sigmaMm: number): Light => {
      const [left, right] = [spotLight(2, sigmaMm, 20, 6), spotLight(2, sigmaMm, 40, 6)];
      return (x, y) => left(x, y) + right(x, y) - 1;
    };
    const hot = (light: Light, isHidden?: typeof isBlack) =>
      spotsOf(light, isHidden).filter(({ kind }) => kind === 'hot');
    expect(hot(two(3))).toHaveLength(2);
    expect(hot(two(6))).toHaveLength(2);
    const noneBetween: typeof isBlack = (x, y) => isBlack(x, y) || (x > 26 && x < 34) || y > 10;
    // Narrow spots fall off within their own word already, wide ones do not.
    expect(hot(two(3), noneBetween)).toHaveLength(2);
    expect(hot(two(6), noneBetween)).toHaveLength(1);
  });

  it('[SP7] a shadow behind a word is a dark spot', () => {
    const [spot, ...others] = spotsOf(spotLight(0.6, 4, 40, 6));
    expect(others).toEqual([]);
    expect(spot.kind).toBe('dark');
    expect(Math.abs(spot.xMm - 40)).toBeLessThan(spotEntry(spot, 0, linear).plusMinusMm);
  });

  it('[SP7] light that leans to the right: a lean, no dark one for its other end', () => {
    const spots = spotsOf(rampLight(3, 60));
    expect(spots.map(({ kind, isLean, lampSide }) => [kind, isLean, lampSide])).toEqual([['hot', true, 'right']]);
  });

  it('[SP7] even figures have none, noisy or not; five per cent more light is none', () => {
    for (const seed of [3, 14, 159]) {
      const random = seededRandom(seed);
      expect(spotsOf(() => 0.4 * (1 + 0.06 * (random() - 0.5)))).toEqual([]);
    }
    expect(spotsOf(spotLight(1.05, 5, 20, 6))).toEqual([]);
  });

  it('[SP7] neither exposure nor mirroring matters, and the inputs stay as they were', () => {
    const light = spotLight(2, 4, 22, 7);
    const [bright] = spotsOf(light);
    const [dim] = spotsOf((x, y) => light(x, y) / 41);
    expect(dim.xMm).toBeWithin(bright.xMm, 1e-9);
    const [mirrored] = spotsOf(
      (x, y) => light(60 - x, y),
      (x, y) => isBlack(60 - x, y),
    );
    // Cells that are as near to one lit cell as to another go to the left one.
    expect(mirrored.xMm).toBeWithin(60 - bright.xMm, 0.25);
    const map = litMap(light);
    const residual = residualOf(map);
    const before = [residual.values.slice(), map.relLuminance.values.slice(), map.glow.values.slice()];
    findLitSpots(map, residual);
    expect([residual.values, map.relLuminance.values, map.glow.values]).toEqual(before);
  });

  it('[SP7] nothing lit: none; a residual of another shape stops loudly', () => {
    const map = litMap(
      () => 0.3,
      () => true,
    );
    expect(findLitSpots(map, createPlane(map.glow.width, map.glow.height, NaN))).toEqual([]);
    expect(() => findLitSpots(map, createPlane(3, 2))).toThrow('shapes differ');
  });

  it('[SP6] what is not seen widens the place, in squares', () => {
    expect(spotPlaceUncertaintyMm(0.4, 1.2)).toBeWithin(1.3, 1e-12);
  });
});

describe('hillsOf', () => {
  const heightsOf = (values: readonly number[]) => ({
    ...createPlane(values.length, 1),
    values: Float32Array.from(values),
  });
  const topsOf = (values: readonly number[], leastDepth: number) =>
    hillsOf(heightsOf(values), createMask(values.length, 1, 1), leastDepth).map(({ cells }) => cells[0]);

  it('[SP7] parts hills at deep saddles only, highest first', () => {
    expect(topsOf([0.2, 1, 0.5, 0.9, 0.1], 0.05)).toEqual([1, 3]);
    expect(topsOf([0.2, 1, 0.8, 0.9, 0.1], 0.05)).toEqual([1]);
    expect(topsOf([0.2, 1, 0.5, 0.9, 0.1], 0.45)).toEqual([1]);
    expect(topsOf([-1, 0], 0.05)).toEqual([]);
  });

  it('[SP7] every cell above 0 belongs to one hill, from high to low', () => {
    const hills = hillsOf(heightsOf([0.3, 1, 0.4, 0.7, -0.2, 0.6]), createMask(6, 1, 1), 0.05);
    expect(hills.map(({ cells }) => cells)).toEqual([[1, 2, 0], [3], [5]]);
  });
});

describe('nearestCells', () => {
  it('[SP7] the nearest masked cell, as a search of all of them finds it', () => {
    const random = seededRandom(26);
    for (const [width, height] of [
      [1, 1],
      [17, 9],
      [8, 23],
    ]) {
      const mask = createMask(width, height);
      for (let i = 0; i < mask.values.length; i++) mask.values[i] = random() < 0.06 ? 1 : 0;
      mask.values[mask.values.length - 1] = 1;
      const squared = (a: number, b: number): number =>
        ((a % width) - (b % width)) ** 2 + (Math.floor(a / width) - Math.floor(b / width)) ** 2;
      const masked = [...mask.values.keys()].filter((cell) => mask.values[cell]);
      nearestCells(mask).forEach((found, cell) => {
        expect(mask.values[found]).toBe(1);
        expect(squared(found, cell)).toBe(Math.min(...masked.map((one) => squared(one, cell))));
      });
    }
  });

  it('[SP7] an empty mask has none', () => {
    expect([...nearestCells(createMask(3, 2))]).toEqual([-1, -1, -1, -1, -1, -1]);
  });
});
