import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { differenceMap } from '../../../core/display/difference-map';
import { differenceNames } from '../../../core/node/map-files/map-names';
import { whyNoDifference, writeDifference } from '../../../core/node/map-files/write-differences';
import { madeUpMaps, madeUpReading, madeUpWindow } from '../cli/made-up';

const planeOf = (...values: number[]) => ({
  glowLuminance: { width: 5, height: 1, values: Float32Array.from(values) },
});

describe('differenceMap', () => {
  it('[PR7] is ln of the ratio of shares: each over the median of the cells that both have', () => {
    // Medians over cells 0, 2, 4: 3 and 8.
    const { values } = differenceMap(planeOf(2, 9, 3, NaN, 6), planeOf(8, NaN, 10, 5, 8));
    const expected = [Math.log(1 / (2 / 3)), NaN, Math.log(10 / 8), NaN, Math.log(1 / 2)];
    expected.forEach((value, i) => {
      if (Number.isNaN(value)) expect(values[i]).toBeNaN();
      else expect(values[i]).toBeWithin(value, 1e-6); // 32-bit floats
    });
  });

  it('[PR7] feels no brightness, turns its sign with the order, and is 0 against itself', () => {
    const [a, b] = [planeOf(1, 2, 4, 3, 7), planeOf(5, 3, 2, 6, 9)];
    const dimmed = planeOf(...[5, 3, 2, 6, 9].map((value) => value / 64));
    expect(differenceMap(a, dimmed)).toEqual(differenceMap(a, b));
    const there = Array.from(differenceMap(a, b).values);
    expect(Array.from(differenceMap(b, a).values, (value) => 0 - value)).toEqual(there);
    expect(Array.from(differenceMap(a, a).values)).toEqual([0, 0, 0, 0, 0]);
  });

  it('[PR7] no glow in common: nothing; another size is a defect', () => {
    expect(Array.from(differenceMap(planeOf(1, NaN, 0, 2, NaN), planeOf(NaN, 1, 2, 0, 1)).values)).toEqual(
      Array(5).fill(NaN),
    );
    const other = { glowLuminance: { width: 1, height: 5, values: new Float32Array(5) } };
    expect(() => differenceMap(planeOf(1, 2, 3, 4, 5), other)).toThrow(/shapes differ/);
  });
});

describe('writeDifference', () => {
  it('[PR7] writes a table at 4 cells a mm and a picture', async () => {
    const [a, b] = [
      madeUpWindow({ name: 'bare' }, madeUpMaps(12, 6)),
      madeUpWindow({ name: 'shade' }, madeUpMaps(12, 6)),
    ];
    const files = new Map<string, string | Uint8Array>();
    await writeDifference({ a, b }, 'shade-minus-bare', async (name, content) => void files.set(name, content));
    expect([...files.keys()]).toEqual(['shade-minus-bare.difference.csv', 'shade-minus-bare.difference.png']);
    const [head, ...rows] = String(files.get('shade-minus-bare.difference.csv')).trimEnd().split('\n');
    expect(head).toBe(
      '# format=evendial-map version=1 px_per_mm=4 width_mm=12 height_mm=6 unit=ln_ratio exposure_normalised=0',
    );
    expect(rows.map((row) => row.split(',').length)).toEqual(Array(24).fill(48));
    const filled = rows.flatMap((row) => row.split(',')).filter((cell) => cell !== '');
    expect(filled.length).toBeGreaterThan(300);
    expect(new Set(filled)).toEqual(new Set(['0']));
    const picture = await sharp(files.get('shade-minus-bare.difference.png') as Uint8Array).metadata();
    expect(picture.width).toBeGreaterThan(500);
  });

  it('[PR7] two windows that do not lie on the same mm have none, and it says whose fault it is', () => {
    const loose = madeUpWindow({
      name: 'tape',
      gates: [{ ...madeUpReading().gates[0], code: 'NOT_REGISTERED' }],
    });
    const pair = { a: madeUpWindow({ name: 'bare' }), b: loose };
    expect(whyNoDifference(pair)).toBe("tape could not be laid on the series' first photo by its print");
    expect(whyNoDifference({ a: pair.a, b: madeUpWindow() })).toBeNull();
  });

  it('[PR7, MP1] names stay apart and fit a file system', () => {
    const long = '\u65e5'.repeat(60);
    const names = differenceNames([
      ['a', 'b'],
      ['a', 'B'],
      [`${long}1`, `${long}2`],
      [`${long}1`, `${long}3`],
    ]);
    expect(names.slice(0, 2)).toEqual(['b-minus-a', 'B-minus-a-2']);
    expect(new Set(names).size).toBe(4);
    expect(Buffer.byteLength(`${names[3]}.difference.csv.123456.unfinished`)).toBeLessThan(255);
  });
});
