import { expect, it } from 'vitest';
import { powerOfTwoFrom, transformInPlace } from '../../../core/registration/fourier';
import { seededRandom } from '../../support/seeded-random';

/** The definition, term by term. */
function slowly(width: number, height: number, values: Float64Array): { real: number[]; imaginary: number[] } {
  const real: number[] = [];
  const imaginary: number[] = [];
  for (let l = 0; l < height; l++) {
    for (let k = 0; k < width; k++) {
      let [re, im] = [0, 0];
      values.forEach((value, i) => {
        const turn = -2 * Math.PI * ((k * (i % width)) / width + (l * Math.floor(i / width)) / height);
        re += value * Math.cos(turn);
        im += value * Math.sin(turn);
      });
      real.push(re);
      imaginary.push(im);
    }
  }
  return { real, imaginary };
}

it.each([
  [1, 1],
  [2, 4],
  [16, 8],
  [64, 1],
])('[RG1] a transform of %i x %i cells is that of the definition', (width, height) => {
  const random = seededRandom(3);
  const values = Float64Array.from({ length: width * height }, () => random() - 0.4);
  const expected = slowly(width, height, values);
  const plane = { width, height, real: values.slice(), imaginary: new Float64Array(width * height) };
  transformInPlace(plane);
  // Sums of at most 128 values below 1 in doubles.
  plane.real.forEach((value, i) => expect(Math.abs(value - expected.real[i])).toBeLessThan(1e-12));
  plane.imaginary.forEach((value, i) => expect(Math.abs(value - expected.imaginary[i])).toBeLessThan(1e-12));
});

it('[RG1] one wave of 1024 cells gives one line: the angles are right to the last digits', () => {
  const n = 1024;
  const real = Float64Array.from({ length: n }, (_, i) => Math.cos((2 * Math.PI * 37 * i) / n));
  const plane = { width: n, height: 1, real, imaginary: new Float64Array(n) };
  transformInPlace(plane);
  plane.real.forEach((value, k) =>
    expect(Math.abs(value - (k === 37 || k === n - 37 ? n / 2 : 0))).toBeLessThan(1e-10),
  );
});

it('[RG1] other sizes stop as a defect', () => {
  const plane = { width: 6, height: 2, real: new Float64Array(12), imaginary: new Float64Array(12) };
  expect(() => transformInPlace(plane)).toThrow('6 x 2');
  expect([1, 2, 3, 460, 512].map(powerOfTwoFrom)).toEqual([1, 2, 4, 512, 512]);
});
