import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { createCanvas, drawText, fitText, textWidth } from '../../../core/node/map-files/canvas';
import { valueBetweenCells } from '../../../core/node/map-files/contours';
import { chromaticityCsv, glowLuminanceCsv } from '../../../core/node/map-files/map-csv';
import { mapNames, safeFileName } from '../../../core/node/map-files/map-names';
import { drawnSigns } from '../../../core/node/map-files/stroke-letters';
import { printMaskPicture, writeMaps } from '../../../core/node/map-files/write-maps';
import { madeUpMaps, madeUpWindow } from './made-up';

describe('mapNames', () => {
  it('[MP1] a long name in a script of three bytes a sign still fits a file system', () => {
    const [name] = mapNames([{ name: '\u65e5\u672c'.repeat(60), window: 'scale' }]);
    expect(Buffer.byteLength(`${name}-12.glow-luminance.csv.123456.unfinished`)).toBeLessThan(255);
    expect(name.length).toBeGreaterThan(40);
  });

  it('[MP1] is the name alone for one window, and name and window for several', () => {
    expect(mapNames([{ name: 'a 1', window: 'scale' }])).toEqual(['a_1']);
    expect(
      mapNames([
        { name: 'a', window: 'left' },
        { name: 'a', window: 'right' },
      ]),
    ).toEqual(['a-left', 'a-right']);
  });

  it('[MP1] numbers repeats, also those that differ by capitals or only after cleaning', () => {
    const names = ['a/b', 'a_b', 'A?B', 'a_b-2', 'c'].map((name) => ({ name, window: 'w' }));
    expect(mapNames(names)).toEqual(['a_b', 'a_b-2', 'A_B-3', 'a_b-2-2', 'c']);
  });

  it.each([
    ['LEDs 8 mm behind', 'LEDs_8_mm_behind'],
    ['../../etc', '_._.._etc'],
    ['-rf', '_rf'],
    ['.hidden', '_hidden'],
    ['con', '_con'],
    ['Größe-1.5', 'Größe-1.5'],
    ['😀\n', '__'],
    ['', '_'],
  ])('[MP1] makes %j safe', (name, safe) => {
    expect(safeFileName(name)).toBe(safe);
  });

  it('[MP1] gives different names to any list, none of which leaves its folder', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ name: fc.string(), window: fc.constantFrom('a', 'b') })), (readings) => {
        const names = mapNames(readings);
        const lower = names.map((name) => name.toLowerCase());
        return new Set(lower).size === readings.length && names.every((name) => /^[^/\\:.-][^/\\:]*$/.test(name));
      }),
    );
  });
});

describe('map tables', () => {
  const maps = madeUpMaps(3.1, 2);
  it('[MP2] name their format, then hold ny rows of nx cells, empty where no glow is', () => {
    const [head, ...rows] = glowLuminanceCsv(maps).trimEnd().split('\n');
    expect(head).toBe(
      '# format=evendial-map version=1 px_per_mm=4 width_mm=3.1 height_mm=2 unit=relative exposure_normalised=1',
    );
    expect(rows.map((row) => row.split(',').length)).toEqual(Array(8).fill(13));
    const cells = rows.flatMap((row) => row.split(','));
    cells.forEach((cell, i) => {
      const value = maps.glowLuminance.values[i];
      if (Number.isNaN(value)) expect(cell).toBe('');
      else expect(Number(cell)).toBeWithin(value, 5e-6 * value); // 6 significant digits
    });
    expect(cells.filter((cell) => cell === '').length).toBeGreaterThan(20);
  });

  it('[MP2] hold two numbers with a blank between them for chromaticity', () => {
    const [head, ...rows] = chromaticityCsv({ ...maps, exposureNormalised: false })
      .trimEnd()
      .split('\n');
    expect(head).toMatch(/unit=uv1976 exposure_normalised=0$/);
    const filled = rows.flatMap((row) => row.split(',')).filter((cell) => cell !== '');
    expect(filled.every((cell) => /^0\.\d+ 0\.\d+$/.test(cell))).toBe(true);
    expect(filled).toHaveLength(maps.uPrime.values.filter((value) => !Number.isNaN(value)).length);
  });
});

describe('printMaskPicture', () => {
  it('[MP2] puts red print into red and dark print into green', () => {
    const { rgb, width, height } = printMaskPicture(
      { width: 3, height: 1, values: Uint8Array.of(1, 0, 0) },
      { width: 3, height: 1, values: Uint8Array.of(0, 1, 0) },
    );
    expect([width, height, ...rgb]).toEqual([3, 1, 255, 0, 0, 0, 255, 0, 0, 0, 0]);
  });
});

describe('valueBetweenCells', () => {
  it('[MP4] is the cell at its centre and the mean half way; NaN beside NaN', () => {
    const plane = { width: 3, height: 1, values: Float32Array.of(2, 6, NaN) };
    expect([0.5, 1, 1.5, 0].map((x) => valueBetweenCells(plane, x, 0.5))).toEqual([2, 4, NaN, 2]);
    expect(valueBetweenCells({ width: 1, height: 1, values: Float32Array.of(7) }, 0.2, 0.9)).toBe(7);
  });
});

describe('lettering', () => {
  it('[MP4] has a sign for every character that messages use, each leaving ink', () => {
    const needed = Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i)).join('') + '±×°−…Δ';
    expect([...needed].filter((sign) => !drawnSigns.includes(sign))).toEqual([]);
    for (const sign of drawnSigns.filter((one) => one !== ' ')) {
      const canvas = createCanvas(60, 40, [0, 0, 0]);
      drawText(canvas, sign, 25, 28, { sizePx: 16, colour: [255, 255, 255] });
      expect([sign, Math.max(...canvas.rgb) > 150]).toEqual([sign, true]);
    }
  });

  it('[MP4] fits a text to a width', () => {
    expect(fitText('evenness', 10, 1000)).toBe('evenness');
    const cut = fitText('evenness '.repeat(20), 10, 200);
    expect(cut.endsWith('…')).toBe(true);
    expect(textWidth(cut, 10)).toBeLessThanOrEqual(200);
  });
});

describe('writeMaps', () => {
  const written = async (): Promise<Map<string, string | Uint8Array>> => {
    const files = new Map<string, string | Uint8Array>();
    await writeMaps(madeUpWindow({}, madeUpMaps(31, 17, true)), 'a', async (name, content) => {
      files.set(name, content);
      return Promise.resolve();
    });
    return files;
  };

  it('[MP2, MP4] writes two tables, the print and four pictures, the same bytes twice', async () => {
    const [first, second] = [await written(), await written()];
    expect([...first.keys()]).toEqual([
      'a.glow-luminance.csv',
      'a.chromaticity.csv',
      'a.print-mask.png',
      'a.luminance.png',
      'a.unevenness.png',
      'a.chromaticity.png',
      'a.window.png',
    ]);
    for (const [name, content] of first)
      expect(Buffer.from(content).equals(Buffer.from(second.get(name) ?? ''))).toBe(true);
    const mask = await sharp(Buffer.from(first.get('a.print-mask.png') ?? '')).metadata();
    expect([mask.width, mask.height, mask.channels]).toEqual([310, 170, 3]);
    const picture = await sharp(Buffer.from(first.get('a.luminance.png') ?? '')).metadata();
    expect(picture.width).toBeGreaterThanOrEqual(560);
  });
});
