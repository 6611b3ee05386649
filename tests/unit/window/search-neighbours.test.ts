import { describe, expect, it } from 'vitest';
import { findWindows } from '../../../core/window/search/find-windows';
import { areBeside } from '../../../core/window/search/overlap';
import { drawnPhoto } from '../../support/drawn-photo';

/** Two windows of 200 x 100 px, `gapPx` apart, the left one of light 0.3, in a dark room. */
function windowsApart(gapPx: number, rightLight: number) {
  return drawnPhoto(640, 260, (column, row) => {
    const isLeft = column > 100 && column < 300;
    const isRight = column > 300 + gapPx && column < 500 + gapPx;
    const light = row > 80 && row < 180 && (isLeft || isRight) ? (isLeft ? 0.3 : rightLight) : 0.01;
    return [light, 0.7 * light, 0.3 * light];
  });
}

/** A knob of 76 px, `times` as light as its panel, with a sheen across. */
function knob(times: number) {
  return drawnPhoto(480, 360, (column, row) => {
    const [u, v] = [column - 251.3, row - 170.8];
    const onKnob = u * u + v * v < 38 ** 2;
    const light = 0.05 * (onKnob ? times * (Math.abs(u - v) < 9 ? 1.6 : 1) : 1);
    return [light, 0.96 * light, 0.9 * light];
  });
}

const sure = (photo: Parameters<typeof findWindows>[0]) =>
  findWindows(photo).filter(({ confidence }) => confidence >= 0.5);

describe('windows side by side', () => {
  it.each([
    [14, 0.3],
    [20, 0.3],
    [20, 0.12],
    [20, 0.9],
    [45, 0.3],
  ])(
    '[WN17] %d px apart, of light 0.3 and %f, both are sure: lit windows are no bright surroundings',
    (gapPx, light) => {
      expect(sure(windowsApart(gapPx, light))).toHaveLength(2);
    },
  );

  it('[WN17] the halves of a scale on both sides of a wide pointer are no windows', () => {
    expect(sure(windowsApart(7, 0.3)).filter(({ corners }) => corners[1].column - corners[0].column < 300)).toEqual([]);
  });

  it('[WN17] beside is a gap neither too narrow nor too wide', () => {
    const box = { left: 10, right: 30, top: 10, bottom: 20 };
    const other = { left: 34, right: 50, top: 10, bottom: 20 };
    expect(areBeside(box, other, 2, 4)).toBe(true);
    expect(areBeside(box, other, 2, 3)).toBe(false);
    expect(areBeside(other, box, 5, 9)).toBe(false);
  });
});

describe('round things in the room’s light', () => {
  it.each([1.5, 2, 2.3])('[WN18] a knob %f times as light as its panel is not sure', (times) => {
    expect(sure(knob(times))).toEqual([]);
  });

  it('[WN18] a round face four times as light as its panel is', () => {
    expect(sure(knob(4))).toHaveLength(1);
  });
});
