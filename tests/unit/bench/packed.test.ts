import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packValue, unpackValue } from '../../../core/contract/packed';
import { isLongRun } from '../../support/long-run';

const floats = fc.float32Array({ maxLength: 20 });
const bytes = fc.uint8Array({ maxLength: 20 });
const clamped = fc.uint8ClampedArray({ maxLength: 20 });
const text = fc.string({ unit: 'grapheme', maxLength: 12 });
/** No negative zero: JSON does not keep its sign. */
const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);
const { value } = fc.letrec((tie) => ({
  value: fc.oneof(
    { maxDepth: 4 },
    fc.constantFrom(null, true, false),
    number,
    text,
    floats,
    bytes,
    clamped,
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(
      text.filter((key) => key !== '$array' && key !== '__proto__'),
      tie('value'),
      { maxKeys: 4, noNullPrototype: true },
    ),
  ),
}));

const placeOf = (packed: Uint8Array): number => new DataView(packed.buffer).getUint32(0, true) + 8;

describe('packed values', () => {
  it('[BE1] come back as they were, whatever they hold', () => {
    const check = fc.property(value, (given) => {
      expect(unpackValue(packValue(given))).toStrictEqual(given);
    });
    fc.assert(check, { numRuns: isLongRun ? 20_000 : 500 });
  });

  it('[BE1] keep NaN, infinities and signed zeros inside arrays, and the kind of array', () => {
    const given = { map: Float32Array.of(NaN, -Infinity, -0, 1.5), rgba: Uint8ClampedArray.of(1, 2, 3) };
    const back = unpackValue(packValue(given)) as typeof given;
    expect([...back.map].map((one) => (Object.is(one, -0) ? '-0' : String(one)))).toEqual([
      'NaN',
      '-Infinity',
      '-0',
      '1.5',
    ]);
    expect(back.rgba).toBeInstanceOf(Uint8ClampedArray);
  });

  it('[BE1] an array that is a part of a larger one travels without its surroundings', () => {
    const part = Float32Array.from([9, 8, 7, 6, 5]).subarray(1, 3);
    expect(unpackValue(packValue([part]))).toStrictEqual([Float32Array.of(8, 7)]);
    const node = Buffer.from('abc');
    expect(unpackValue(packValue(node))).toStrictEqual(Uint8Array.of(97, 98, 99));
  });

  it('[BE1] arrays begin at multiples of 8', () => {
    const packed = packValue({ name: 'é – 光', a: Uint8Array.of(1), b: Float32Array.of(2), c: Uint8Array.of(3) });
    expect(placeOf(packed) % 8).toBe(0);
    const back = unpackValue(packed) as Record<string, Uint8Array>;
    expect([back['a'], back['b'], back['c']].map((array) => array.byteOffset % 8)).toEqual([0, 0, 0]);
  });

  it.each([
    ['a number that JSON has no word for', { x: NaN }, /NaN/],
    ['an array of another kind', Float64Array.of(1), /Float64Array/],
    ['an object that looks like a place', { $array: 'f32' }, /\$array/],
  ])('[BE1] refuses %s', (_, given, words) => expect(() => packValue(given)).toThrow(words));

  it('[BE1] refuses what is cut short, altered, or no packed value', () => {
    const packed = packValue({ plane: new Float32Array(8) });
    expect(() => unpackValue(packed.subarray(0, 5))).toThrow(/5 bytes/);
    expect(() => unpackValue(packed.subarray(0, 16))).toThrow(/cut short/);
    expect(() => unpackValue(packed.subarray(0, packed.length - 4))).toThrow(/array that is cut short/);
    expect(() => unpackValue(new TextEncoder().encode('{"error":{}}'))).toThrow(/not a packed value/);
  });
});
