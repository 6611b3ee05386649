import { describe, expect, it } from 'vitest';
import { createPlane } from '../../../core/base/plane';
import { medianOf } from '../../../core/base/stats';
import { scoreEvenness } from '../../../core/reading/evenness';
import type { GlowMap } from '../../../core/reading/glow-map';
import {
  findSpots,
  spotEntry,
  spotPlaceUncertaintyMm,
  spotRatioBound,
  spotRatioUncertainty,
} from '../../../core/reading/spots';
import type { UncertaintyBasis } from '../../../core/reading/uncertainty';
import { seededRandom } from '../../support/seeded-random';
import { workedExamples } from '../../support/worked-examples';
import { drawGlowMap, rampLight, spotLight } from './draw-glow';

type Light = (x: number, y: number) => number;
type Print = (x: number, y: number) => boolean;

function mapOf(light: Light, isPrint?: Print, widthMm = 60, heightMm = 25): GlowMap {
  return drawGlowMap(widthMm, heightMm, (x, y) => [light(x, y), light(x, y), light(x, y)], isPrint);
}

function residualOf(map: GlowMap) {
  const { pxPerMm, borderMm } = map;
  return scoreEvenness(map.relLuminance, map.glow, { pxPerMm, borderMm, viewingDistanceMm: 500 }).residual;
}

const spotsOf = (light: Light, isPrint?: Print, widthMm?: number, heightMm?: number) => {
  const map = mapOf(light, isPrint, widthMm, heightMm);
  return findSpots(map, residualOf(map));
};

/** A Gaussian spot with its own spread to each side in x and y, turned by the unit vector (c, s). */
function unevenSpot(
  ratio: number,
  x0: number,
  y0: number,
  spread: { back: number; front: number; across: number },
  c = 1,
  s = 0,
): Light {
  return (x, y) => {
    const along = (x - x0) * c + (y - y0) * s;
    const across = (y - y0) * c - (x - x0) * s;
    const sigma = along < 0 ? spread.back : spread.front;
    return 1 + (ratio - 1) * Math.exp(-((along / sigma) ** 2 + (across / spread.across) ** 2) / 2);
  };
}

/** Two spots of twice the light, 4 mm each, at the same height. */
const pair = (apartMm: number): Light => {
  const [left, right] = [spotLight(2, 4, 30 - apartMm / 2, 12), spotLight(2, 4, 30 + apartMm / 2, 12)];
  return (x, y) => left(x, y) + right(x, y) - 1;
};

/** Invented print: words of dark strokes and a red bar across the window. */
const strokes: Print = (x, y) => (y > 6 && y < 10 && x % 5 < 1.4) || (y > 14 && y < 15.6);

describe('worked examples', () => {
  const lights: Record<string, Light> = { one: spotLight(2, 5, 20, 12), dark: spotLight(0.6, 3, 40, 8) };
  const examples = workedExamples<{ case: string }, { count: number; xy: [number, number]; ratio: number }>('spot');

  it.each(examples.map((example) => [example.id, example] as const))(
    '[SP3] %s',
    (_, { input, expected, tolerance }) => {
      const allowed = tolerance as { xy: number; ratio: number };
      const spots = spotsOf(lights[input.case]);
      expect(spots.map(({ kind }) => kind)).toEqual([input.case === 'dark' ? 'dark' : 'hot']);
      expect(spots.length).toBe(expected.count);
      expect(spots[0].xMm).toBeWithin(expected.xy[0], allowed.xy);
      expect(spots[0].yMm).toBeWithin(expected.xy[1], allowed.xy);
      expect(spots[0].ratioToGlow).toBeWithin(expected.ratio, allowed.ratio);
    },
  );
});

describe('where and how large', () => {
  const cases = [1.3, 1.6, 2.3, 3.7].flatMap((ratio) =>
    [1.2, 1.9, 3.1, 4.6, 6.3].map((sigmaMm) => ({ ratio, sigmaMm, x0: 17.3 + sigmaMm, y0: 11.7 })),
  );

  it.each(cases)('[SP3] $ratio times the light, sigma $sigmaMm mm', ({ ratio, sigmaMm, x0, y0 }) => {
    const light = spotLight(ratio, sigmaMm, x0, y0);
    const map = mapOf(light);
    const ofGlow = medianOf(Array.from(map.relLuminance.values).filter((_, i) => map.glow.values[i]));
    const truth = ratio / ofGlow;
    const spots = spotsOf(light).filter(({ kind }) => kind === 'hot');
    expect(spots.length).toBe(1);
    const [spot] = spots;
    expect(spot.xMm).toBeWithin(x0, 0.2); // a cell is 0.25 mm
    expect(spot.yMm).toBeWithin(y0, 0.2);
    expect(spot.ratioToGlow).toBeLessThanOrEqual(truth);
    if (spot.diameterMm < 5) expect(spot.atLeast).toBe(true);
    if (spot.diameterMm > 9) expect(spot.atLeast).toBe(false);
    if (!spot.atLeast) expect(spot.ratioToGlow / truth).toBeWithin(1, 0.08); // what the issue asks for
    expect(spot.elongation).toBeWithin(1, 0.1);
    expect(spot.lampSide).toBe(null);
    expect(spot.isLean).toBe(false);
  });

  it('[SP3] a larger spot has a larger diameter, not below that of half its height', () => {
    const diameters = [2, 3, 4, 5].map((sigmaMm) => spotsOf(spotLight(1.8, sigmaMm, 31, 12.5))[0].diameterMm);
    expect([...diameters].sort((a, b) => a - b)).toEqual(diameters);
    diameters.forEach((diameter, i) => expect(diameter / (2.355 * (2 + i))).toBeWithin(1, 0.15)); // smoothing, ln
  });

  it('[SP3] the long axis is clockwise from x', () => {
    for (const [c, s, angle] of [
      [1, 0, 0],
      [0.8, 0.6, 36.87],
      [0, 1, 90],
      [-0.6, 0.8, 126.87],
    ]) {
      const long = unevenSpot(2, 30, 20, { back: 7, front: 7, across: 3 }, c, s);
      const [spot] = spotsOf(long, undefined, 60, 40);
      expect(spot.elongation).toBeWithin(7 / 3, 0.3);
      const off = Math.abs(spot.angleDeg - angle) % 180;
      expect(Math.min(off, 180 - off)).toBeLessThan(4);
      expect(spot.angleDeg).toBeGreaterThanOrEqual(0);
      expect(spot.angleDeg).toBeLessThan(180);
    }
  });

  it('[SP1] print over the spot moves it by less than 0.45 mm', () => {
    for (const [x0, y0] of [
      [20.4, 8],
      [31.1, 13.2],
      [40.7, 15],
    ]) {
      const [spot] = spotsOf(spotLight(1.9, 4, x0, y0), strokes);
      expect(Math.hypot(spot.xMm - x0, spot.yMm - y0)).toBeLessThan(0.45);
      expect(spot.ratioToGlow / 1.9).toBeWithin(1, 0.08);
    }
  });

  it('[SP1] a patch of 4 x 4 mm without light in the middle of a spot does not lose it', () => {
    const isPrint: Print = (x, y) => Math.abs(x - 27) < 2 && Math.abs(y - 12) < 2;
    const [spot] = spotsOf(spotLight(2.1, 5, 27, 12), isPrint);
    expect(Math.hypot(spot.xMm - 27, spot.yMm - 12)).toBeLessThan(0.45);
  });

  it('[SP4] a spot cut by the edge keeps its place: the rest does not push it inwards', () => {
    for (const [x0, y0] of [
      [22, 3],
      [22, 4],
      [36, 5.5],
      [4, 21.5],
    ]) {
      const [spot] = spotsOf(spotLight(2.2, 5, x0, y0));
      expect(Math.hypot(spot.xMm - x0, spot.yMm - y0)).toBeLessThan(0.6); // what the issue asks for
    }
  });
});

describe('how many', () => {
  it.each([
    [6, 1],
    [8, 1],
    [10, 1],
    [12, 2],
    [15, 2],
  ])('[SP2] two equal spots of sigma 4 mm, %d mm apart: %d', (apartMm, count) => {
    const spots = spotsOf(pair(apartMm)).filter(({ kind }) => kind === 'hot');
    expect(spots.length).toBe(count);
    const places = spots.map(({ xMm }) => xMm).sort((a, b) => a - b);
    const expected = count === 1 ? [30] : [30 - apartMm / 2, 30 + apartMm / 2];
    // Between two spots there is light of both: peaks of the sum lie up to 0.4 mm further in.
    places.forEach((place, i) => expect(place).toBeWithin(expected[i], 0.6));
    for (const spot of spots) expect(spot.yMm).toBeWithin(12, 0.2);
  });

  it('[SP3] neighbours are not counted into each other: two spots 13 mm apart stay round', () => {
    for (const spot of spotsOf(pair(13)).filter(({ kind }) => kind === 'hot')) {
      expect(spot.elongation).toBeLessThan(1.35);
      expect(spot.diameterMm).toBeWithin(9.5, 1.5);
    }
  });

  it('[SP2] five per cent more light are no spot, twenty are', () => {
    expect(spotsOf(spotLight(1.05, 5, 20, 12))).toEqual([]);
    expect(spotsOf(spotLight(1.2, 5, 20, 12)).length).toBe(1);
  });

  it('[SP2] dark halos about a strong spot are no dark spots: compared with the whole glow', () => {
    expect(spotsOf(spotLight(4, 5, 33, 14)).map(({ kind }) => kind)).toEqual(['hot']);
  });

  it.each([
    ['unprinted', undefined, 0.03],
    ['printed', strokes, 0.03],
    ['printed, noisy', strokes, 0.06],
  ] as const)('[SP2] an even light has none: %s, noise of cells %3$d', (_, isPrint, noise) => {
    for (const seed of [3, 14, 159]) {
      const random = seededRandom(seed);
      const light: Light = () => 0.4 * (1 + noise * (random() + random() + random() + random() - 2) * Math.sqrt(3));
      expect(spotsOf(light, isPrint)).toEqual([]);
    }
  });

  it('[SP1] nothing glows: none', () => {
    const map = mapOf(
      () => 0.3,
      () => true,
    );
    const nothing = createPlane(map.glow.width, map.glow.height, NaN);
    expect(findSpots(map, nothing)).toEqual([]);
  });

  it('[SP1] a residual of another shape stops loudly', () => {
    expect(() =>
      findSpots(
        mapOf(() => 0.3),
        createPlane(3, 2),
      ),
    ).toThrow('shapes differ');
  });
});

describe('lamp side', () => {
  it.each([
    [1, 0, 'left'],
    [-1, 0, 'right'],
    [0, 1, 'top'],
    [0, -1, 'bottom'],
    [0.6, 0.8, 'top left'],
    [-0.8, 0.6, 'top right'],
  ])('[SP4] light drawn out towards (%d, %d): the lamp is on the steep side, %3$s', (c, s, side) => {
    const aimed = unevenSpot(2.4, 30, 30, { back: 3, front: 8, across: 4 }, c, s);
    expect(spotsOf(aimed, undefined, 60, 60)[0].lampSide).toBe(side);
  });

  it.each([
    [3, 12, 'left'],
    [57, 12, 'right'],
    [30, 2, 'top'],
    [30, 23, 'bottom'],
  ])('[SP4] a spot at (%d, %d) touches an edge: the lamp is near it, %s', (x0, y0, side) => {
    const [spot] = spotsOf(spotLight(2.5, 4, x0, y0));
    expect([spot.kind, spot.lampSide]).toEqual(['hot', side]);
  });

  it('[SP5] light that leans to the right: one lean, no dark one for its other end', () => {
    const spots = spotsOf(rampLight(2, 60));
    expect(spots.map(({ kind, isLean, lampSide }) => [kind, isLean, lampSide])).toEqual([['hot', true, 'right']]);
    expect(spotsOf((x, y) => rampLight(2, 60)(60 - x) + 0 * y)[0].lampSide).toBe('left');
  });

  it('[SP5] a round spot is never a lean', () => {
    for (const ratio of [1.4, 2.5, 6]) expect(spotsOf(spotLight(ratio, 5, 28, 13))[0].isLean).toBe(false);
  });
});

describe('what must not matter', () => {
  const light = unevenSpot(2.4, 21, 9, { back: 2.5, front: 8, across: 4 }, 0.8, 0.6);

  it('[SP1] the exposure', () => {
    const [bright] = spotsOf(light, strokes);
    const [dim] = spotsOf((x, y) => light(x, y) / 37, strokes);
    expect(dim.xMm).toBeWithin(bright.xMm, 0.01);
    expect(dim.ratioToGlow / bright.ratioToGlow).toBeWithin(1, 1e-5); // float32
  });

  it('[SP3] left and right: a mirrored window has mirrored spots', () => {
    const [spot] = spotsOf(light, strokes);
    const [mirrored] = spotsOf(
      (x, y) => light(60 - x, y),
      (x, y) => strokes(60 - x, y),
    );
    expect(mirrored.xMm).toBeWithin(60 - spot.xMm, 0.02);
    expect(mirrored.yMm).toBeWithin(spot.yMm, 0.02);
    const sides = [light, (x: number, y: number) => light(60 - x, y)].map((one) => spotsOf(one)[0].lampSide);
    expect(sides).toEqual(['top left', 'top right']);
    expect(mirrored.angleDeg).toBeWithin(180 - spot.angleDeg, 1);
  });

  it('[SP1] the inputs stay as they were', () => {
    const map = mapOf(light, strokes);
    const residual = residualOf(map);
    const before = [residual.values.slice(), map.relLuminance.values.slice(), map.glow.values.slice()];
    findSpots(map, residual);
    expect([residual.values, map.relLuminance.values, map.glow.values]).toEqual(before);
  });
});

describe('plus-minus', () => {
  const basis: UncertaintyBasis = {
    response: 'linear',
    isSmallCamera: false,
    light: 'warm-white',
    room: 'dark',
    ambientShare: null,
    viewShare: 0.3,
    printMaskFrom: 'photo',
    printShare: 0.1,
    clippedShare: 0,
    cellNoise: 0.01,
    pxPerMm: 11,
    whiteBalance: 'manual',
  };

  it('[SP6] the place: both parts in squares, doubled in the entry', () => {
    expect(spotPlaceUncertaintyMm(0.4)).toBeWithin(0.5, 1e-12);
    const [spot] = spotsOf(spotLight(2, 5, 20, 12));
    const entry = spotEntry(spot, 0.4, basis);
    expect(entry.plusMinusMm).toBeWithin(1, 1e-12);
    expect('lampSide' in entry).toBe(false);
    expect(Object.keys(entry).sort()).toEqual([
      'angleDeg',
      'atLeast',
      'diameterMm',
      'elongation',
      'kind',
      'plusMinusMm',
      'ratioPlusMinus',
      'ratioToGlow',
      'xMm',
      'yMm',
    ]);
    const [edge] = spotsOf(spotLight(2.5, 4, 3, 12));
    expect(spotEntry(edge, 0.2, basis).lampSide).toBe('left');
  });

  it('[SP6] the ratio: at least 3 %, more when the tone curve is unknown', () => {
    expect(spotRatioUncertainty(1.7, basis) / 1.7).toBeWithin(0.0305, 0.001);
    expect(spotRatioUncertainty(1.7, { ...basis, response: 'unknown' })).toBeGreaterThan(0.09);
    const [spot] = spotsOf(spotLight(2, 5, 20, 12));
    const { ratioToGlow, ratioPlusMinus } = spotEntry(spot, 0, basis);
    expect(ratioToGlow).toBe(spot.ratioToGlow);
    expect(ratioPlusMinus).toBeWithin(2 * spotRatioUncertainty(ratioToGlow, basis), 1e-12);
  });

  it('[SP6] the ratio under an unknown tone curve: to the power of 0.95, of hot and dark spots alike', () => {
    const unknown: UncertaintyBasis = { ...basis, response: 'unknown' };
    const [hot] = spotsOf(spotLight(3, 6, 20, 12));
    const entry = spotEntry(hot, 0, unknown);
    expect(Math.log(entry.ratioToGlow) / Math.log(hot.ratioToGlow)).toBeWithin(0.95, 1e-12);
    expect(entry.ratioPlusMinus).toBeWithin(2 * spotRatioUncertainty(entry.ratioToGlow, unknown), 1e-12);
    expect(spotEntry({ ...hot, kind: 'dark', ratioToGlow: 0.5 }, 0, unknown).ratioToGlow).toBeWithin(0.5176, 1e-4);
    for (const response of ['linear', 'stated', 'recovered'] as const) {
      expect(spotEntry(hot, 0, { ...basis, response }).ratioToGlow).toBe(hot.ratioToGlow);
    }
  });

  it('[SP6] a small spot has a bound in place of a plus-minus, so much nearer to the glow as the tone curve is in doubt', () => {
    const unknown: UncertaintyBasis = { ...basis, response: 'unknown' };
    const [hot] = spotsOf(spotLight(2, 1.2, 20, 12));
    const entry = spotEntry(hot, 0, unknown);
    expect(entry.atLeast).toBe(true);
    expect(entry.ratioPlusMinus).toBeNull();
    // Read as light to the power of 1.2, twice the spread of unknown curves, it would not be above the truth.
    expect(entry.ratioToGlow ** 1.2).toBeLessThan(hot.ratioToGlow * 1.02);
    expect(entry.ratioToGlow).toBeLessThan(spotEntry(hot, 0, basis).ratioToGlow);
    expect(spotRatioBound('dark', 0.7, unknown)).toBeWithin(0.75, 0.005); // 2 x 0.1 x 0.7 ln 0.7
    expect(spotRatioBound('hot', 1.01, { ...unknown, room: 'lit', ambientShare: null, cellNoise: 0.2 })).toBe(1);
  });

  it('[SP6] a flat top that is brightest at one end leaves its place open, one top does not', () => {
    const single = spotsOf(spotLight(1.5, 5, 30, 12))[0];
    expect(single.openMm).toBe(0);
    // A lamp with a shade that leaves a little more at its right: two tops that are one, the right one 4 % higher.
    const [left, right] = [spotLight(1.5, 4, 25, 12), spotLight(1.54, 4, 35, 12)];
    const spots = spotsOf((x, y) => left(x, y) + right(x, y) - 1).filter(({ kind }) => kind === 'hot');
    expect(spots).toHaveLength(1);
    const offMm = Math.abs(spots[0].xMm - 35);
    expect(offMm).toBeGreaterThan(1);
    expect(spotEntry(spots[0], 0, basis).plusMinusMm).toBeGreaterThan(offMm);
  });
});
