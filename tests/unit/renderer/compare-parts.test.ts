import { describe, expect, it } from 'vitest';
import { axisRange, axisTicks } from '../../../core/display/axis-ticks';
import { placeInName, placesOf } from '../../../renderer/views/compare/sweep-places';

describe('station Compare', () => {
  it('[SC32] reads a lamp’s place from a name that tells one, and takes what the user writes before that', () => {
    expect(['sweep-16-mm.jpg', 'left 4.5mm.jpg', 'L 4,5 mm', 'lamp 18mm.jpg'].map(placeInName)).toEqual([
      16, 4.5, 4.5, 18,
    ]);
    expect(['a.jpg', '16 mm to 20 mm.jpg', '5mmol.jpg', '1234 mm.jpg', '92x18mm.jpg'].map(placeInName)).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
    const photos = ['left 4 mm.jpg', 'left 8 mm.jpg', 'left.jpg'].map((name, i) => ({ id: `p${i}`, name }));
    expect([...placesOf(photos, { p1: null, p2: -3 })]).toEqual([
      ['p0', 4],
      ['p2', -3],
    ]);
  });

  it('[SC32] marks axes at round values, and leaves room for every plus-minus', () => {
    expect(axisTicks(0, 1, 5)).toEqual([0, 0.2, 0.4, 0.6, 0.8, 1]);
    expect(axisTicks(-7, 92, 6)).toEqual([0, 20, 40, 60, 80]);
    expect(axisTicks(0.2512, 0.2588, 5)).toEqual([0.252, 0.254, 0.256, 0.258]);
    const [from, to] = axisRange([{ value: 60, plusMinus: 8 }, { value: 80, plusMinus: 5 }], 20); // prettier-ignore
    expect([from < 52, to > 85]).toEqual([true, true]);
    expect(axisRange([{ value: 5, plusMinus: 0 }], 4)).toEqual([3, 7]);
  });
});
