import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import type { Mask } from '../../../core/base/plane';
import { borderMm, outlineMask } from '../../../core/window/outline';
import { checkPolygon, polygonMask } from '../../../core/window/polygon';

const countOf = (mask: Mask) => mask.values.reduce((sum, value) => sum + value, 0);

/** The code of the AppError that a call throws. */
function codeOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    if (error instanceof AppError) return `${error.kind} ${error.code}`;
    throw error;
  }
  return 'none';
}

const notched = [
  { xMm: 2, yMm: 1 },
  { xMm: 26, yMm: 1.5 },
  { xMm: 14, yMm: 7 },
  { xMm: 27, yMm: 16 },
  { xMm: 3, yMm: 17 },
];

/** Distance from the polygon's sides by brute force: the nearest of many places on them. */
function bruteDistance(points: readonly { xMm: number; yMm: number }[], xMm: number, yMm: number): number {
  let nearest = Infinity;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length];
    for (let s = 0; s <= 2000; s++) {
      const t = s / 2000;
      nearest = Math.min(nearest, Math.hypot(a.xMm + t * (b.xMm - a.xMm) - xMm, a.yMm + t * (b.yMm - a.yMm) - yMm));
    }
  });
  return nearest;
}

describe('borderMm', () => {
  it('[WN10] is 1 mm, and 8 % of the shorter side of small windows', () => {
    expect(borderMm(92, 18)).toBe(1);
    expect(borderMm(60, 12.5)).toBe(1);
    expect(borderMm(16, 7)).toBeWithin(0.56, 1e-12);
    expect(borderMm(6, 30)).toBeWithin(0.48, 1e-12);
  });
});

describe('outlineMask', () => {
  it('[WN11] a rectangle loses whole cells of its border', () => {
    const mask = outlineMask({ kind: 'rectangle' }, 12, 7, 4, 1, 'whole');
    expect([mask.width, mask.height]).toEqual([48, 28]);
    expect(countOf(mask)).toBe(40 * 20);
    expect(mask.values[4 * 48 + 4]).toBe(1);
    expect(mask.values[3 * 48 + 4]).toBe(0);
    // 0.56 mm at 4 cells a mm cuts into the third cell: it is not whole, though its centre is inside.
    expect(countOf(outlineMask({ kind: 'rectangle' }, 16, 7, 4, 0.56, 'whole'))).toBe((64 - 6) * (28 - 6));
    expect(countOf(outlineMask({ kind: 'rectangle' }, 16, 7, 4, 0.56, 'centre'))).toBe((64 - 4) * (28 - 4));
  });

  it('[WN11] a last cell that sticks out of the window is not whole', () => {
    const mask = outlineMask({ kind: 'rectangle' }, 5.1, 3, 4, 0, 'whole');
    expect([mask.width, countOf(mask)]).toEqual([21, 20 * 12]);
  });

  it('[WN11] an ellipse has its area, and shrinks by true distance', () => {
    const full = outlineMask({ kind: 'ellipse' }, 40, 22, 10, 0, 'centre');
    // Counting error of a lattice: a few cells of 69 000.
    expect(countOf(full) / 100).toBeWithin(Math.PI * 20 * 11, 0.5);
    // Steiner: area - e perimeter + pi e^2; perimeter of this ellipse 99.76 mm (Ramanujan's second formula).
    const h = ((20 - 11) / (20 + 11)) ** 2;
    const perimeter = Math.PI * 31 * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    const shrunk = outlineMask({ kind: 'ellipse' }, 40, 22, 10, 1.5, 'centre');
    expect(countOf(shrunk) / 100).toBeWithin(Math.PI * 220 - 1.5 * perimeter + Math.PI * 2.25, 0.5);
  });

  it('[WN11] each whole cell of a shrunk ellipse keeps its distance from the rim, and none that could is left out', () => {
    const mask = outlineMask({ kind: 'ellipse' }, 30, 12, 4, 1, 'whole');
    const rim = Array.from({ length: 3000 }, (_, i) => {
      const angle = (2 * Math.PI * i) / 3000;
      return [15 + 15 * Math.cos(angle), 6 + 6 * Math.sin(angle)];
    });
    const depth = (x: number, y: number) => {
      if (((x - 15) / 15) ** 2 + ((y - 6) / 6) ** 2 > 1) return -1;
      return Math.min(...rim.map(([rx, ry]) => Math.hypot(rx - x, ry - y)));
    };
    for (let row = 0; row < 24; row++) {
      for (let column = 0; column < 60; column++) {
        const corners = [0, 1].flatMap((dx) => [0, 1].map((dy) => depth((column + dx) / 4, (row + dy) / 4)));
        const least = Math.min(...corners);
        if (Math.abs(least - 1) < 0.001) continue; // the sampled rim is up to 0.03 mm coarse, which moves a distance of 1 mm by 0.0001 mm
        expect([column, row, mask.values[row * 120 + column]]).toEqual([column, row, least > 1 ? 1 : 0]);
      }
    }
  });

  it('[WN11] a cut ellipse lies in both, the cut having a border too', () => {
    const cut = [
      { xMm: -2, yMm: -1 },
      { xMm: 42, yMm: -3 },
      { xMm: 41, yMm: 14 },
      { xMm: -4, yMm: 14 },
    ];
    const mask = outlineMask({ kind: 'ellipse', cutMm: cut }, 38, 37, 4, 1, 'whole');
    const rowsUsed = [...mask.values.keys()].filter((i) => mask.values[i]).map((i) => Math.floor(i / mask.width));
    expect(Math.max(...rowsUsed)).toBe(51); // ends at 13.0 mm
    expect(Math.min(...rowsUsed)).toBe(5); // the shrunk top is a point at 1.0 mm: no whole cell fits above 1.25 mm
  });

  it('[WN11] a polygon shrinks by true distance, also at an inward corner', () => {
    const mask = outlineMask({ kind: 'polygon', pointsMm: notched }, 30, 18, 4, 1.2, 'centre');
    for (let row = 0; row < mask.height; row += 7) {
      for (let column = 0; column < mask.width; column++) {
        const xMm = (column + 0.5) / 4;
        const yMm = (row + 0.5) / 4;
        const inside = polygonMask(notched, 30, 18, 4, 'centre').values[row * mask.width + column] === 1;
        const distance = bruteDistance(notched, xMm, yMm);
        if (Math.abs(distance - 1.2) < 0.01) continue; // the brute force is that coarse
        expect([xMm, yMm, mask.values[row * mask.width + column]]).toEqual([
          xMm,
          yMm,
          inside && distance > 1.2 ? 1 : 0,
        ]);
      }
    }
  });
});

describe('polygonMask', () => {
  it('[WN9] whole cells lie in centre cells, and those in touched cells', () => {
    const [whole, centre, touch] = (['whole', 'centre', 'touch'] as const).map((rule) =>
      polygonMask(notched, 30, 18, 2, rule),
    );
    for (let i = 0; i < whole.values.length; i++) {
      expect(whole.values[i]).toBeLessThanOrEqual(centre.values[i]);
      expect(centre.values[i]).toBeLessThanOrEqual(touch.values[i]);
    }
    expect(countOf(whole)).toBeLessThan(countOf(centre));
    expect(countOf(centre)).toBeLessThan(countOf(touch));
  });

  it('[WN9] a patch smaller than a cell still touches it', () => {
    const speck = [
      { xMm: 3.1, yMm: 2.1 },
      { xMm: 3.2, yMm: 2.1 },
      { xMm: 3.15, yMm: 2.2 },
    ];
    const mask = polygonMask(speck, 9, 5, 1, 'touch');
    expect(countOf(mask)).toBe(1);
    expect(mask.values[2 * 9 + 3]).toBe(1);
    expect(countOf(polygonMask(speck, 9, 5, 1, 'centre'))).toBe(0);
  });

  it('[WN9] a polygon on cell borders takes just its cells, by every rule', () => {
    const block = [
      { xMm: 1, yMm: 2 },
      { xMm: 6, yMm: 2 },
      { xMm: 6, yMm: 5 },
      { xMm: 1, yMm: 5 },
    ];
    for (const rule of ['whole', 'centre', 'touch'] as const) {
      expect([rule, countOf(polygonMask(block, 9, 7, 4, rule))]).toEqual([rule, 20 * 12]);
    }
  });
});

describe('checkPolygon', () => {
  const at = (xMm: number, yMm: number) => ({ xMm, yMm });
  it.each([
    ['usage POLYGON_TOO_FEW_POINTS', [at(1, 2), at(3, 4)]],
    ['usage POLYGON_CROSSING', [at(1, 1), at(8, 6), at(9, 2), at(2, 7)]],
    ['usage POLYGON_OUTSIDE', [at(1, 1), at(800, 6), at(9, 200)]],
    ['usage POLYGON_NO_AREA', [at(1, 1), at(3, 3), at(7, 7)]],
    ['none', notched],
  ])('[WN9] answers %s', (code, points) => {
    expect(codeOf(() => checkPolygon(points, 30, 18))).toBe(code);
  });
});
