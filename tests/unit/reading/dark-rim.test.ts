import { describe, expect, it } from 'vitest';
import { createMask, createPlane } from '../../../core/base/plane';
import { findDarkRim } from '../../../core/reading/dark-rim';

type Light = (xMm: number, yMm: number) => number;

function rimOf(light: Light, isGlow: (xMm: number, yMm: number) => boolean = () => true) {
  const plane = createPlane(240, 80);
  const glow = createMask(240, 80);
  for (let i = 0; i < plane.values.length; i++) {
    const [x, y] = [((i % 240) + 0.5) / 4, (Math.floor(i / 240) + 0.5) / 4];
    plane.values[i] = light(x, y);
    glow.values[i] = isGlow(x, y) ? 1 : 0;
  }
  return findDarkRim(plane, glow, 4);
}

const spot: Light = (x, y) => 0.2 + 0.6 * Math.exp(-((x - 30) ** 2 + (y - 10) ** 2) / 60);

describe('findDarkRim', () => {
  it('[GT5] even light, a spot, and ends that fade to a twentieth have none', () => {
    expect(rimOf(() => 0.4).share).toBe(0);
    expect(rimOf(spot).share).toBe(0);
    expect(rimOf((x) => 0.03 + 0.6 * Math.exp(-((x - 30) ** 2) / 150)).share).toBe(0);
  });

  it('[GT5] a frame 2 mm wide along the bottom is seen, and how wide', () => {
    const rim = rimOf((x, y) => (y > 18 ? 0.006 : spot(x, y)));
    expect(rim.share).toBeWithin(240 / 640, 0.06); // the bottom side, less its corners, which look along the frame
    expect(rim.widthMm).toBeWithin(2, 0.26); // one cell
  });

  it('[GT5] a covered lower part is seen though the light never starts', () => {
    expect(rimOf((_, y) => (y > 9 ? 0.004 : 0.5)).share).toBeGreaterThan(0.3);
  });

  it('[GT5] a bezel shadow of half a millimetre is none, nor what is not glow', () => {
    expect(rimOf((_, y) => (y > 19.5 ? 0.02 : 0.4)).share).toBe(0);
    expect(
      rimOf(
        (_, y) => (y > 17 ? 0.004 : 0.4),
        (_, y) => y < 17,
      ).share,
    ).toBe(0);
    expect(
      rimOf(
        () => 0.4,
        () => false,
      ),
    ).toEqual({ share: 0, widthMm: 0 });
  });
});
