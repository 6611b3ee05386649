import { describe, expect, it } from 'vitest';
import { createMask, type Mask, type Plane } from '../../../core/base/plane';
import { ambientShare, lampOffScale, subtractLampOff, type ColourPlanes } from '../../../core/photo/lamp-off';
import { workedExamples } from '../../support/worked-examples';

const line = (...values: number[]): Plane => ({ width: values.length, height: 1, values: Float32Array.from(values) });
const onePixel = ([red, green, blue]: readonly number[]): ColourPlanes => ({
  red: line(red),
  green: line(green),
  blue: line(blue),
});
const whole = (width: number): Mask => createMask(width, 1, 1);

interface Input {
  readonly on: number[];
  readonly off: number[];
  readonly t_on: number;
  readonly t_off: number;
}

describe('subtractLampOff', () => {
  it.each(
    workedExamples<Input, { lamp_rgb: number[]; ambient_share: number }>('lampoff').map((e) => [e.id, e] as const),
  )('[LU7] %s', (_, { input, expected }) => {
    const exposure = (exposureS: number) => ({ exposureS, fNumber: 4, iso: 200 });
    const scale = lampOffScale(exposure(input.t_on), exposure(input.t_off));
    const off = onePixel(input.off);
    const lamp = subtractLampOff(onePixel(input.on), off, scale);
    [lamp.red, lamp.green, lamp.blue].forEach((plane, c) =>
      expect(plane.values[0]).toBeWithin(expected.lamp_rgb[c], 1e-6),
    );
    expect(ambientShare(lamp, off, scale, whole(1))).toBeWithin(expected.ambient_share, 5e-5 + 1e-6); // four decimals
  });

  it('[LU7] the scale follows time, opening and ISO of both', () => {
    const on = { exposureS: 0.1, fNumber: 4, iso: 400 };
    expect(lampOffScale(on, on)).toBe(1);
    const off = { exposureS: 0.4, fNumber: 8, iso: 100 };
    expect(lampOffScale(on, off)).toBeWithin((0.1 * 64 * 400) / (0.4 * 16 * 100), 1e-12);
    expect(lampOffScale(on, off) * lampOffScale(off, on)).toBeWithin(1, 1e-12);
  });

  it('[LU7] negative light becomes 0 and is counted; NaN stays; inputs are not altered', () => {
    const on: ColourPlanes = { red: line(0.5, 0.1, NaN), green: line(0.4, 0.2, 0.3), blue: line(0.05, 0.01, 0.02) };
    const off: ColourPlanes = { red: line(0.125, 0.25, 0.5), green: line(0.0625, 0.03, NaN), blue: line(0.5, 0, 0.25) };
    const lamp = subtractLampOff(on, off, 0.5);
    expect(Array.from(lamp.red.values)).toEqual([0.4375, 0, NaN]);
    expect(lamp.green.values[2]).toBeNaN();
    expect(Array.from(lamp.blue.values)).toEqual([0, expect.closeTo(0.01, 6), 0]);
    expect(lamp.negatives).toBe(3);
    expect(on.red.values[1]).toBe(Math.fround(0.1));
  });

  it('[LU7] no lamp light: no share; a share above 1 is possible', () => {
    const off = onePixel([0.2, 0.3, 0.1]);
    expect(ambientShare(onePixel([0, 0, 0]), off, 1, whole(1))).toBeNull();
    expect(ambientShare(onePixel([0.1, 0.15, 0.05]), off, 1, whole(1))).toBeWithin(2, 1e-6);
    expect(() =>
      subtractLampOff(onePixel([1, 2, 3]), { red: line(1, 2), green: line(3, 4), blue: line(5, 6) }, 1),
    ).toThrow('shapes');
  });
});
