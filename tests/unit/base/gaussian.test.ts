import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blurGaussian, blurMasked } from '../../../core/base/gaussian';
import { createMask, type Mask, type Plane } from '../../../core/base/plane';
import { seededRandom } from '../../support/seeded-random';

const [width, height] = [7, 4];
const values = Float32Array.from({ length: 28 }, (_, i) => {
  const [c, r] = [i % 7, Math.floor(i / 7)];
  return (((7 * c + 11 * r) % 13) + 0.25 * c * r) / 8;
});
const plane: Plane = { width, height, values };
const mask: Mask = {
  width,
  height,
  values: Uint8Array.from({ length: 28 }, (_, i) => ((3 * (i % 7) + 5 * Math.floor(i / 7)) % 4 ? 1 : 0)),
};

/** The same blur straight from its definition, in two dimensions at once. */
function blurredAt(source: Plane, sigmaPx: number, column: number, row: number): number {
  const reach = Math.max(1, Math.floor(4 * sigmaPx + 0.5));
  const mirror = (index: number, length: number): number => {
    const inPeriod = ((index % (2 * length)) + 2 * length) % (2 * length);
    return inPeriod < length ? inPeriod : 2 * length - 1 - inPeriod;
  };
  let [sum, total] = [0, 0];
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      const weight = Math.exp(-(dx * dx + dy * dy) / (2 * sigmaPx * sigmaPx));
      const at = mirror(row + dy, source.height) * source.width + mirror(column + dx, source.width);
      sum += weight * source.values[at];
      total += weight;
    }
  }
  return sum / total;
}

/**
 * The same blur one cell and one direction at a time, each sum in the order centre, first neighbours, second and so on
 * (or, once the kernel is longer than the line, along the line with the mirror images' weights put together).
 */
function blurredPlainly({ width, height, values }: Plane, sigmaPx: number): Float32Array {
  const reach = Math.max(1, Math.floor(4 * sigmaPx + 0.5));
  const heights = Array.from({ length: reach + 1 }, (_, k) => Math.exp((-0.5 * k * k) / (sigmaPx * sigmaPx)));
  const total = heights.reduce((sum, weight, k) => (k === 0 ? weight : sum + 2 * weight), 0);
  const weightOf = (k: number): number => heights[Math.abs(k)] / total;
  const mirror = (place: number, length: number): number => {
    const inPeriod = ((place % (2 * length)) + 2 * length) % (2 * length);
    return inPeriod < length ? inPeriod : 2 * length - 1 - inPeriod;
  };
  const sumAt = (line: Float32Array, i: number): number => {
    const cell = (place: number): number => line[mirror(place, line.length)];
    let sum = 0;
    if (reach < line.length) {
      sum = weightOf(0) * line[i];
      for (let k = 1; k <= reach; k++) sum += weightOf(k) * (cell(i - k) + cell(i + k));
      return sum;
    }
    const folded = new Float64Array(line.length);
    for (let k = -reach; k <= reach; k++) folded[mirror(i + k, line.length)] += weightOf(k);
    folded.forEach((weight, j) => (sum += weight * line[j]));
    return sum;
  };
  const across = values.map((_, at) => {
    const row = Math.floor(at / width);
    return sumAt(values.subarray(row * width, (row + 1) * width), at % width);
  });
  return across.map((_, at) =>
    sumAt(
      Float32Array.from({ length: height }, (__, row) => across[row * width + (at % width)]),
      Math.floor(at / width),
    ),
  );
}

describe('blurGaussian', () => {
  it('[EV1] gives to the last bit what plain loops give', () => {
    const random = seededRandom(83);
    for (let run = 0; run < 60; run++) {
      const [w, h] = [1 + Math.floor(random() * 31), 1 + Math.floor(random() * 23)];
      const source = { width: w, height: h, values: Float32Array.from({ length: w * h }, () => random() * 3 - 1) };
      const sigmaPx = 0.3 + random() * (run % 2 ? 9 : 2);
      expect(blurGaussian(source, sigmaPx).values).toEqual(blurredPlainly(source, sigmaPx));
    }
  });

  // Rows made by scipy 1.17.1: gaussian_filter(a, sigma, mode='reflect', truncate=4), a as above
  it.each([
    [0.6, 0, [0.3357353, 0.6587366, 0.546309, 0.7505496, 0.5008151, 0.8389147, 0.4924524]],
    [1.3, 3, [0.8098306, 0.818917, 0.87905, 0.9709714, 1.082498, 1.2175663, 1.3327142]],
    [5, 1, [0.8703173, 0.8725628, 0.8766078, 0.8816512, 0.8866889, 0.8907425, 0.8929824]],
  ])('[EV1] sigma %d, row %d as another program blurs it', (sigmaPx, row, expected) => {
    const blurred = blurGaussian(plane, sigmaPx).values.slice(row * width, (row + 1) * width);
    expected.forEach((value, column) => expect(blurred[column]).toBeWithin(value, 3e-7)); // 7 decimals, float cells
  });

  it('[EV1] equals its definition on random planes of any size, kernel longer than the plane or not; input unchanged', () => {
    const sizes = fc.tuple(
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: 1, max: 9 }),
      fc.double({ min: 0.3, max: 4, noNaN: true }),
    );
    fc.assert(
      fc.property(sizes, fc.infiniteStream(fc.integer({ min: -50, max: 90 })), ([w, h, sigmaPx], numbers) => {
        const cells = Float32Array.from({ length: w * h }, () => Number(numbers.next().value) / 16);
        const source = { width: w, height: h, values: cells };
        const before = cells.slice();
        const blurred = blurGaussian(source, sigmaPx);
        blurred.values.forEach((value, i) =>
          expect(value).toBeWithin(blurredAt(source, sigmaPx, i % w, Math.floor(i / w)), 2e-6),
        );
        expect(cells).toEqual(before);
      }),
      { seed: 5, numRuns: 40 },
    );
  });

  it('[EV1] a wide blur, worked out at some cells only, stays within 2e-4 of the range of the definition', () => {
    const random = seededRandom(29);
    for (const [w, h, sigmaPx] of [
      [97, 61, 10],
      [130, 40, 14.9],
      [61, 97, 23],
      [40, 9, 30],
      [5, 88, 12],
    ]) {
      // One bright cell, an edge, noise: the worst that a blur can be given. Range 1.
      for (const lightAt of [(i: number) => (i === 17 * 5 ? 1 : 0), (i: number) => (i % w < w / 3 ? 1 : 0), random]) {
        const source = { width: w, height: h, values: Float32Array.from({ length: w * h }, (_, i) => lightAt(i)) };
        const exact = blurredPlainly(source, sigmaPx);
        const apart = blurGaussian(source, sigmaPx).values.map((value, i) => Math.abs(value - exact[i]));
        expect(Math.max(...apart)).toBeLessThan(2e-4);
      }
    }
  });

  it('[EV1] a wide blur leaves even light even', () => {
    const even = { width: 90, height: 50, values: new Float32Array(4500).fill(0.7) };
    blurGaussian(even, 21).values.forEach((value) => expect(value).toBeWithin(0.7, 1e-6)); // float32
  });

  it('[EV1] sigma 0 is a copy', () => {
    const copy = blurGaussian(plane, 0);
    expect(copy.values).toEqual(values);
    expect(copy.values).not.toBe(values);
  });
});

describe('blurMasked', () => {
  it('[EV1] normalised convolution as another program computes it, whatever lies under the mask', () => {
    const dirty = { ...plane, values: values.map((value, i) => (mask.values[i] ? value : NaN)) };
    const expected = [0.967334, 0.8986124, 0.8603565, 0.8646915, 0.8610789, 0.8094825, 0.740726];
    const { blurred, weight } = blurMasked(dirty, mask, 1.3);
    expected.forEach((value, column) => expect(blurred.values[width + column]).toBeWithin(value, 1e-6));
    expect(weight.values.every((value) => value > 0 && value < 1)).toBe(true);
  });

  it('[EV1] without a gap it is the plain blur, with weight 1; with nothing set it is 0', () => {
    const { blurred, weight } = blurMasked(plane, createMask(width, height, 1), 1.1);
    expect(blurred.values).toEqual(blurGaussian(plane, 1.1).values);
    expect(new Set(weight.values)).toEqual(new Set([1]));
    expect(new Set(blurMasked(plane, createMask(width, height), 1.1).blurred.values)).toEqual(new Set([0]));
  });
});
