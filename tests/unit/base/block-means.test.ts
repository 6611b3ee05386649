import { describe, expect, it } from 'vitest';
import { blockMeans } from '../../../core/base/block-means';

describe('blockMeans', () => {
  it('[LV1] blocks become their mean, channel by channel; what is left over is dropped, nothing is altered', () => {
    // Counts up, so that every block has its own mean.
    const rgb = Float32Array.from({ length: 3 * 7 * 5 }, (_, i) => i);
    const mean = (column: number, row: number, channel: number): number => {
      const at = (c: number, r: number): number => 3 * (7 * r + c) + channel;
      const [c, r] = [2 * column, 2 * row];
      return (at(c, r) + at(c + 1, r) + at(c, r + 1) + at(c + 1, r + 1)) / 4;
    };
    const expected = [0, 1].flatMap((row) => [0, 1, 2].flatMap((column) => [0, 1, 2].map((c) => mean(column, row, c))));
    expect([...blockMeans(rgb, 7, 5, 2)]).toEqual(expected);
    expect(rgb[5]).toBe(5);
  });
});
