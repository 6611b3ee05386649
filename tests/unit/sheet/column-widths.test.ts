import { describe, expect, it } from 'vitest';
import { columnWidths } from '../../../core/node/sheet/column-widths';

const sum = (widths: readonly number[]): number => widths.reduce((all, one) => all + one, 0);

describe('columnWidths', () => {
  it('[RS12] gives every column its whole text where there is room', () => {
    expect(columnWidths([{ least: 5, most: 20 }, { least: 3, most: 9 }], 40)).toEqual([20, 9]); // prettier-ignore
  });

  it('[RS12] keeps words whole and fills the room where texts must be broken', () => {
    const widths = columnWidths([{ least: 10, most: 100 }, { least: 4, most: 4 }, { least: 8, most: 30 }], 60); // prettier-ignore
    expect(sum(widths)).toBeCloseTo(60, 9);
    expect(widths[1]).toBe(4);
    expect(widths[0] > 10 && widths[2] > 8).toBe(true);
  });

  it('[RS12] where not even the words fit, only the widest column gives way', () => {
    expect(columnWidths([{ least: 500, most: 900 }, { least: 36, most: 36 }, { least: 12, most: 12 }], 100)).toEqual([52, 36, 12]); // prettier-ignore
    expect(sum(columnWidths([{ least: 500, most: 500 }, { least: 400, most: 400 }], 100))).toBe(100); // prettier-ignore
  });
});
