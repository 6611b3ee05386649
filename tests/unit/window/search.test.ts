import { describe, expect, it } from 'vitest';
import { homographyFromCorners, windowPointOf } from '../../../core/window/homography';
import type { Corners } from '../../../core/base/points';
import { findWindows } from '../../../core/window/search/find-windows';
import { cornerDistance } from '../../support/corner-distance';
import { drawnPhoto, type Drawing } from '../../support/drawn-photo';

type Pair = readonly [number, number];
const cornersOf = (pairs: readonly Pair[]) => pairs.map(([column, row]) => ({ column, row })) as unknown as Corners;
const warm = (light: number) => [light, 0.62 * light, 0.21 * light] as const;
const sure = (photo: Parameters<typeof findWindows>[0]) =>
  findWindows(photo).filter(({ confidence }) => confidence >= 0.5);

/** A window of 90 x 20 mm by its corners: glow by place on it, `room` elsewhere, and glow that falls on the bezel. */
function scaleDrawing(pairs: readonly Pair[], glow: (xMm: number, yMm: number) => number, room: number): Drawing {
  const homography = homographyFromCorners(cornersOf(pairs), 90, 20);
  return (column, row) => {
    const { xMm, yMm } = windowPointOf(homography, { column, row });
    const outside = Math.max(-xMm, xMm - 90, -yMm, yMm - 20);
    if (outside <= 0) return warm(glow(xMm, yMm));
    return warm(room + 0.06 * Math.exp(-outside / 2));
  };
}

/** Dark ends, a hot spot, figures, a scale line, a red mark's worth of shade and a black pointer from rim to rim. */
function printedGlow(xMm: number, yMm: number): number {
  const fromMiddle = (xMm - 45) / 45;
  const hotSpot = 1.5 * Math.exp(-((xMm - 26) ** 2 + (yMm - 12) ** 2) / 18);
  const light = 0.3 * (1 - 0.75 * fromMiddle ** 2) + 0.2 * hotSpot;
  const isFigure = xMm % 11 > 4 && xMm % 11 < 7.5 && yMm > 3 && yMm < 7.4 && (xMm * 3 + yMm * 2) % 2 < 1.2;
  const isLine = yMm > 13 && yMm < 13.4 && xMm > 6 && xMm < 83;
  const isPointer = Math.abs(xMm - 58) < 0.4;
  return isFigure || isLine || isPointer ? 0.02 * light : light;
}

const tilted: readonly Pair[] = [
  [171.3, 152.8],
  [803.6, 118.2],
  [796.9, 271.4],
  [160.2, 297.5],
];
const ellipseCorners = (centre: Pair, across: Pair, down: Pair): Pair[] =>
  (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([u, v]) => [centre[0] + u * across[0] + v * down[0], centre[1] + u * across[1] + v * down[1]]);

/** A round face by its half diameters, the part below `cover` (share of the half diameter, down) dark. */
function faceDrawing(centre: Pair, across: Pair, down: Pair, cover: number, room: number): Drawing {
  const size = across[0] * down[1] - across[1] * down[0];
  return (column, row) => {
    const [x, y] = [column - centre[0], row - centre[1]];
    const u = (x * down[1] - y * down[0]) / size;
    const v = (y * across[0] - x * across[1]) / size;
    const isScale = Math.abs(Math.hypot(u, v - 0.5) - 0.9) < 0.015 && v < 0.1;
    if (Math.hypot(u, v) > 1) return warm(room);
    return warm(v > cover ? 0.004 : (isScale ? 0.02 : 0.5) * (1 - 0.3 * u));
  };
}

describe('windows that are there', () => {
  it('[WN12, WN13] a tilted scale is found to 0.5 % of its width, with print, pointer, hot spot and dark ends', () => {
    const found = sure(drawnPhoto(960, 420, scaleDrawing(tilted, printedGlow, 0.003)));
    expect(found).toHaveLength(1);
    expect(found[0].outline).toBe('rectangle');
    expect(cornerDistance(found[0].corners, tilted)).toBeLessThan(0.005);
  });

  it('[WN12, WN17] strong perspective and a lit room do not move the corners', () => {
    const leaning: readonly Pair[] = [
      [214.6, 131.7],
      [731.2, 168.9],
      [742.5, 275.1],
      [205.3, 318.4],
    ];
    const found = sure(
      drawnPhoto(
        960,
        420,
        scaleDrawing(leaning, () => 0.42, 0.07),
      ),
    );
    expect(found).toHaveLength(1);
    expect(cornerDistance(found[0].corners, leaning)).toBeLessThan(0.005);
  });

  it('[WN12] corners begin at the top-left of the photo and run clockwise', () => {
    const [found] = sure(drawnPhoto(960, 420, scaleDrawing(tilted, printedGlow, 0.003)));
    const [topLeft, topRight, bottomRight, bottomLeft] = found.corners;
    expect(topLeft.column).toBeLessThan(topRight.column);
    expect(topRight.row).toBeLessThan(bottomRight.row);
    expect(bottomLeft.column).toBeLessThan(bottomRight.column);
    expect(topLeft.row).toBeLessThan(bottomLeft.row);
  });

  it('[WN16] a round face seen at an angle is an ellipse, its corners those of the parallelogram about it', () => {
    const [centre, across, down]: Pair[] = [
      [322.4, 236.1],
      [141.7, 0],
      [17.6, 119.3],
    ];
    const found = sure(drawnPhoto(640, 480, faceDrawing(centre, across, down, 2, 0.004)));
    expect(found).toHaveLength(1);
    expect(found[0].outline).toBe('ellipse');
    expect(cornerDistance(found[0].corners, ellipseCorners(centre, across, down))).toBeLessThan(0.005);
  });

  it('[WN16] a straight cover over the lower part is no side of the face, and tells how it is turned', () => {
    const [centre, across, down]: Pair[] = [
      [318.9, 241.6],
      [142.3, 11.4],
      [-10.2, 137.9],
    ];
    const found = sure(drawnPhoto(640, 480, faceDrawing(centre, across, down, 0.45, 0.004)));
    expect(found).toHaveLength(1);
    expect(found[0].outline).toBe('ellipse');
    expect(cornerDistance(found[0].corners, ellipseCorners(centre, across, down))).toBeLessThan(0.005);
  });

  it('[WN12] several windows in one photo are all found, of either outline', () => {
    const scale: readonly Pair[] = [
      [62.3, 141.8],
      [458.7, 137.4],
      [460.1, 227.9],
      [63.8, 231.2],
    ];
    const [centre, across, down]: Pair[] = [
      [651.5, 187.3],
      [92.6, 0],
      [0, 91.4],
    ];
    const drawScale = scaleDrawing(scale, printedGlow, 0.003);
    const drawFace = faceDrawing(centre, across, down, 2, 0);
    const found = sure(
      drawnPhoto(800, 380, (x, y) => {
        const [face, rest] = [drawFace(x, y), drawScale(x, y)];
        return [face[0] + rest[0], face[1] + rest[1], face[2] + rest[2]];
      }),
    );
    expect(found.map(({ outline }) => outline).sort()).toEqual(['ellipse', 'rectangle']);
    const errors = found.map(({ outline, corners }) =>
      cornerDistance(corners, outline === 'ellipse' ? ellipseCorners(centre, across, down) : scale),
    );
    expect(Math.max(...errors)).toBeLessThan(0.005);
  });

  it('[WN12] blue light is found like warm light', () => {
    const drawing = scaleDrawing(tilted, () => 0.42, 0.003);
    const found = sure(
      drawnPhoto(960, 420, (x, y) => [0.01 * drawing(x, y)[0], 0.06 * drawing(x, y)[0], drawing(x, y)[0]]),
    );
    expect(found).toHaveLength(1);
    expect(cornerDistance(found[0].corners, tilted)).toBeLessThan(0.005);
  });
});

describe('what is no window', () => {
  it.each<[string, Drawing]>([
    ['darkness', () => [0.001, 0.0012, 0.0014]],
    ['an even wall', () => warm(0.31)],
    [
      'a wall with a soft light on it',
      (x, y) => warm(0.02 + 0.6 * Math.exp(-((x - 290) ** 2 + (y - 170) ** 2) / 9000)),
    ],
    ['a window that the frame cuts', (x, y) => warm(x > 330 && y > 90 && y < 310 ? 0.5 : 0.003)],
    ['a sheet hardly brighter than the wall', (x, y) => warm(x > 120 && x < 470 && y > 90 && y < 290 ? 0.33 : 0.29)],
    [
      'a chart of patches',
      (x, y) => warm(x % 80 < 62 && y % 80 < 62 && x < 560 && y < 400 ? 0.05 + ((x * 7) % 3) / 9 : 0.004),
    ],
  ])('[WN18] %s gives nothing above 0.5', (_, drawing) => {
    expect(sure(drawnPhoto(600, 430, drawing))).toEqual([]);
  });

  it('[WN18] a chart of equal bright patches on black is told from windows by their number', () => {
    const chart =
      (patches: number): Drawing =>
      (x, y) => {
        const [column, row] = [Math.floor((x - 30) / 90), Math.floor((y - 40) / 90)];
        const isOn = (x - 30) % 90 < 66 && (y - 40) % 90 < 61 && column >= 0 && row >= 0 && column < 6 && row < 4;
        return warm(isOn && row * 6 + column < patches ? 0.4 : 0.003);
      };
    expect(sure(drawnPhoto(600, 430, chart(2)))).toHaveLength(2);
    expect(sure(drawnPhoto(600, 430, chart(24)))).toEqual([]);
  });
});

describe('the search itself', () => {
  it('[WN12] leaves the photo as it is, and gives the same twice', () => {
    const photo = drawnPhoto(
      480,
      210,
      scaleDrawing(
        tilted.map(([x, y]) => [x / 2, y / 2] as const),
        printedGlow,
        0.003,
      ),
    );
    const before = photo.rgb.slice();
    const first = findWindows(photo);
    expect(findWindows(photo)).toEqual(first);
    expect(photo.rgb).toEqual(before);
  });

  it('[WN12] wants the whole photo', () => {
    const photo = drawnPhoto(40, 30, () => [0.1, 0.2, 0.3]);
    expect(() => findWindows({ ...photo, widthPx: 41 })).toThrow(RangeError);
  });
});
