import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createMask, type Mask } from '../../../core/base/plane';
import type { Corners } from '../../../core/base/points';
import type { LinearPart } from '../../../core/contract/bench';
import { partForWindow } from '../../../core/live/linear-part';
import { prepareLive, readLive, type LiveSettings } from '../../../core/live/live-window';
import { scoreEvenness } from '../../../core/reading/evenness';
import { drawLight, drawMask, spotLight } from '../reading/draw-glow';
import { corners, drawPart, photo } from './draw-part';

const usual: LiveSettings = {
  widthMm: 60,
  heightMm: 25,
  shape: { kind: 'rectangle' },
  leaveOut: [],
  photo,
  print: null,
  isFromGreen: false,
  viewingDistanceMm: 500,
};
const spot = spotLight(2, 5, 20, 12.5);

function scoreOf(part: LinearPart, changes: Partial<LiveSettings> = {}, at = corners): number {
  const { score } = readLive(prepareLive({ ...usual, ...changes }), part, at);
  expect(score).not.toBeNull();
  return score ?? NaN;
}

/** Score of the drawn light itself, on a map as that of the full reading. */
function trueScore(
  light: (x: number, y: number) => number,
  { widthMm, heightMm } = { widthMm: 60, heightMm: 25 },
  isGlow: (x: number, y: number) => boolean = () => true,
): number {
  const plane = drawLight(widthMm, heightMm, 4, light);
  const options = { pxPerMm: 4, borderMm: Math.min(1, 0.08 * heightMm), viewingDistanceMm: 500 };
  return scoreEvenness(plane, drawMask(plane, 4, isGlow), options).score;
}

/** Two bars of print, as a mask on the window and as what they leave of the light. */
const isPrint = (x: number, y: number): boolean => (y > 15 && y < 16.5 && x > 8 && x < 30) || Math.abs(x - 20) < 0.5;
const coveredBy = (isCovered: (x: number, y: number) => boolean): Mask => {
  const mask = createMask(600, 250);
  for (let i = 0; i < mask.values.length; i++) {
    if (isCovered(((i % 600) + 0.5) / 10, (Math.floor(i / 600) + 0.5) / 10)) mask.values[i] = 1;
  }
  return mask;
};
const grown = (x: number, y: number): boolean =>
  [-0.4, 0, 0.4].some((dx) => [-0.4, 0, 0.4].some((dy) => isPrint(x + dx, y + dy)));
const frozen = { corners, widthMm: 60, heightMm: 25, covered: coveredBy(grown), isLit: false };

describe('readLive', () => {
  it('[LV3] gives the score of the light under the corners, tilted or not', () => {
    // 2 cells a mm for 4, and straightening: the score does not feel the grid within 0.5 point (EV3).
    expect(scoreOf(drawPart(spot))).toBeWithin(trueScore(spot), 0.5);
    expect(scoreOf(drawPart(() => 0.5))).toBeWithin(100, 1e-3); // float32
  });

  it('[LV3] a window under 12.5 mm height is read as well as a high one', () => {
    const size = { widthMm: 60, heightMm: 7 };
    const light = spotLight(2, 3, 20, 3.5);
    const flat: Corners = [100, 1300].flatMap((column) => [
      { column, row: 100 },
      { column, row: 240 },
    ]) as unknown as Corners;
    const placed: Corners = [flat[0], flat[2], flat[3], flat[1]];
    expect(scoreOf(drawPart(light, size, placed), size, placed)).toBeWithin(trueScore(light, size), 0.5);
  });

  it('[LV3] frozen print does not count; without it the print counts as dark', () => {
    const part = drawPart((x, y) => spot(x, y) * (isPrint(x, y) ? 0.05 : 1));
    expect(scoreOf(part, { print: frozen })).toBeWithin(
      trueScore(spot, usual, (x, y) => !grown(x, y)),
      0.5,
    );
    expect(scoreOf(part)).toBeLessThan(trueScore(spot) - 8);
  });

  it('[LV2] print stays where it is in the photo while a corner is dragged', () => {
    const part = drawPart((x, y) => 0.5 * (isPrint(x, y) ? 0.05 : 1));
    const dragged: Corners = [{ column: 112, row: 96 }, corners[1], corners[2], { column: 131, row: 581 }];
    // Even light stays even wherever the corners are, when all of the print is masked.
    expect(scoreOf(part, { print: frozen }, dragged)).toBeWithin(100, 0.1);
  });

  it('[LV2] print lies at its place when the size in mm is changed', () => {
    const part = drawPart((x, y) => 0.5 * (isPrint(x, y) ? 0.05 : 1));
    expect(scoreOf(part, { print: frozen, widthMm: 90, heightMm: 37.5 })).toBeWithin(100, 0.1);
  });

  it('[LV2] beyond the window of the last reading nothing is lit, with lit figures', () => {
    const part = drawPart(() => 0.5);
    const lit = { ...frozen, covered: createMask(600, 250), isLit: true };
    const wider: Corners = [corners[0], { column: 1340, row: 100 }, { column: 1320, row: 610 }, corners[3]];
    const { glowShare } = readLive(prepareLive({ ...usual, print: lit }), part, wider);
    expect(glowShare).toBeWithin(0.975, 0.015); // a strip of 50 of 1240 px, of which the border hides a third
  });

  it('[LV3] is as blind to exposure as the full score', () => {
    const part = drawPart(spot);
    const before = scoreOf(part);
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 1.9, noNaN: true }), (factor) => {
        const brighter = { ...part, rgb: part.rgb.map((value) => value * factor) };
        expect(scoreOf(brighter)).toBeWithin(before, 0.01); // float32
      }),
      { numRuns: 5 },
    );
  });

  it('[LV3] hardly feels how far the photo was reduced', () => {
    const part = drawPart(spot);
    const coarse = partForWindow(part, corners, usual, 5);
    expect(coarse.reducedBy).toBe(3);
    expect(scoreOf(coarse)).toBeWithin(scoreOf(part), 0.5);
  });

  it('[LV3] says why there is no score', () => {
    const part = drawPart(spot);
    const cut: LinearPart = { ...part, region: { ...part.region, column: 300 } };
    expect(readLive(prepareLive(usual), cut, corners)).toMatchObject({ score: null, visibleUnevenness: null });
    expect(readLive(prepareLive(usual), cut, corners).reason).toMatch(/beyond the part/);
    const allPrint = { ...frozen, covered: createMask(600, 250, 1) };
    expect(readLive(prepareLive({ ...usual, print: allPrint }), part, corners).reason).toMatch(/nothing .* glows/);
    const mirrored: Corners = [corners[1], corners[0], corners[3], corners[2]];
    expect(() => readLive(prepareLive(usual), part, mirrored)).toThrow(/anticlockwise/);
  });

  it('[LV3] leaves its inputs alone and gives the same every time', () => {
    const part = drawPart(spot);
    const copy = part.rgb.slice();
    const live = prepareLive({ ...usual, print: frozen });
    const first = readLive(live, part, corners);
    readLive(live, part, [{ column: 110, row: 90 }, corners[1], corners[2], corners[3]]);
    const again = readLive(live, part, corners);
    expect(again.score).toBe(first.score);
    // Compared as bytes: a matcher looks at each of a million numbers by itself.
    const bytes = ({ buffer }: Float32Array): Buffer => Buffer.from(buffer);
    expect(bytes(again.window.red.values).equals(bytes(first.window.red.values))).toBe(true);
    expect(bytes(part.rgb).equals(bytes(copy))).toBe(true);
    expect(first.visibleUnevenness?.values.length).toBe(120 * 50);
  });
});
