import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figure, missing, noReference } from '../../../core/contract/figure';
import { csvField, csvHeader, csvText, type ReadingRow } from '../../../core/node/cli/csv';
import { figureText, printable, shortFigure } from '../../../core/display/figure-text';
import { mapsText } from '../../../core/node/cli/maps-text';
import { jsonText, roundedNumber } from '../../../core/node/cli/rounded';
import { tableText } from '../../../core/node/cli/table';
import { columnsOf, padColumns, wrapText } from '../../../core/node/cli/wrap';
import { madeUpReading } from './made-up';

describe('roundedNumber', () => {
  it('[CL5] keeps 6 significant digits and no negative zero', () => {
    expect([0.123456789, 1234567.8, -2.5e-9, 42].map(roundedNumber)).toEqual([0.123457, 1234570, -2.5e-9, 42]);
    expect(Object.is(roundedNumber(-0), 0)).toBe(true);
  });

  it('[CL5] stops at what is no number, so that it never reaches a file', () => {
    for (const wrong of [NaN, Infinity, -Infinity]) expect(() => roundedNumber(wrong)).toThrow(RangeError);
    expect(() => jsonText({ deep: [{ value: NaN }] })).toThrow(RangeError);
  });

  it('[CL5] is within half a unit of the sixth digit, and stays when rounded again', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const rounded = roundedNumber(value);
        return Math.abs(rounded - value) <= 5.01e-6 * Math.abs(value) && Object.is(roundedNumber(rounded), rounded);
      }),
    );
  });

  it('[CL5] writes JSON that reads back, with rounded numbers at every depth', () => {
    expect(JSON.parse(jsonText({ a: [0.1234567, null, 'x'], b: { c: -0 } }))).toEqual({
      a: [0.123457, null, 'x'],
      b: { c: 0 },
    });
  });
});

describe('figureText', () => {
  it.each([
    [76.3456, 5.2, '76', '6'],
    [1.3412, 0.0812, '1.34', '0.09'],
    [2640, 143, '2640', '150'],
    [8.27, 11.7, '8', '12'],
    [0.5, 0.07, '0.50', '0.07'],
    [3.27, 0.95, '3', '1'],
    [97.3, 9.4, '97', '10'],
    [12345, 99.1, '12350', '100'],
    [-0.02, 0.31, '0.0', '0.4'],
    [4.2, 0, '4.2', '0'],
  ])('[CL6] prints %f and %f as %s and %s', (value, plusMinus, shownValue, shownPlusMinus) => {
    expect(figureText(value, plusMinus)).toEqual({ value: shownValue, plusMinus: shownPlusMinus });
  });

  it('[CL6] never prints less doubt than there is', () => {
    const size = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(size, size, (value, plusMinus) => {
        const shown = figureText(value, plusMinus);
        return (
          Number(shown.plusMinus) >= plusMinus * (1 - 1e-8) &&
          Math.abs(Number(shown.value) - value) <= Number(shown.plusMinus) / 2 + 1e-9
        );
      }),
    );
  });

  it('[CL6] hatches a missing figure', () => {
    expect([shortFigure(missing('no reference')), shortFigure(figure(0.0083, 0.0117), 1000)]).toEqual([
      '///',
      '8 ± 12',
    ]);
  });
});

describe('csvText', () => {
  it('[CL7] quotes what RFC 4180 asks to quote', () => {
    expect(['plain', 'a,b', 'a"b', 'a\nb', 'a\rb', null, undefined, 0.1234567, true].map(csvField)).toEqual([
      'plain',
      '"a,b"',
      '"a""b"',
      '"a\nb"',
      '"a\rb"',
      '',
      '',
      '0.123457',
      'true',
    ]);
  });

  it('[CL7] gives a row a reading under a fixed header; a failed photo has its code alone', () => {
    const failed = { file: 'b,2.jpg', error: { code: 'PHOTO_NOT_FOUND', message: 'm', remedy: 'r' } };
    const text = csvText([
      { role: 'trial', entry: madeUpReading() },
      { role: 'reference', entry: failed },
    ]);
    const [header, first, second, end] = text.split('\n');
    expect(header.split(',').slice(0, 5)).toEqual(['name', 'window', 'file', 'score', 'scorePlusMinus']);
    expect(new Set(csvHeader).size).toBe(csvHeader.length);
    const cells = first.split(',');
    const cell = (name: string): string => cells[csvHeader.indexOf(name)];
    expect(cells).toHaveLength(csvHeader.length);
    expect([
      cell('name'),
      cell('score'),
      cell('scorePlusMinus'),
      cell('redPrintIndex'),
      cell('hotSpots'),
      cell('gates'),
    ]).toEqual(['LEDs 8 mm behind', '76.3457', '5.2', '', '1', 'warn:WINDOW_TOO_WIDE']);
    expect(second).toMatch(/^,,"b,2\.jpg",+reference,PHOTO_NOT_FOUND,+$/);
    expect(end).toBe('');
  });

  it('[CL7] leaves words and spots of a refusal empty, and gives its reason in a column of its own', () => {
    const { evenness, colour } = madeUpReading();
    const refused = madeUpReading({
      evenness: { ...evenness, score: missing('too dark'), words: 'no verdict: too dark' },
      colour: { ...colour, x: missing('too blue'), verdict: 'no verdict: too blue' },
      spots: [],
      spotsReason: 'too noisy',
    });
    const text = csvText([{ role: 'trial', entry: refused }]);
    const cells = text.split('\n')[1].split(',');
    const of = (...names: string[]): string[] => names.map((name) => cells[csvHeader.indexOf(name)]);
    expect(of('evennessWords', 'colourVerdict', 'hotSpots', 'darkSpots')).toEqual(['', '', '', '']);
    expect(of('scoreReason', 'colourReason', 'spotsReason')).toEqual(['too dark', 'too blue', 'too noisy']);
  });

  it('[CL7] keeps luminance in cd/m2 out', () => {
    expect(csvHeader.filter((name) => /cdm2/i.test(name))).toEqual([]);
  });
});

describe('tableText', () => {
  const rows = [
    { role: 'reference', entry: madeUpReading({ name: 'reference', gates: [] }) },
    { role: 'trial', entry: madeUpReading({ name: `long ${'name '.repeat(30)}` }) },
    { role: 'trial', entry: { file: 'a\nb\u001b[2J.jpg', error: { code: 'X_Y', message: 'gone', remedy: 'Look.' } } },
  ] as const;
  const text = tableText(rows);

  it('[CL8] leads with evenness, red print and colour distance, where they are built, each with plus-minus or its reason', () => {
    const lines = tableText([rows[0]]).split('\n').slice(4, 7);
    expect(lines[0]).toMatch(/Evenness +76 ± 6 +of 100 +clearly uneven/);
    expect(lines[1]).toMatch(/Red print +\/\/\/ +it is not known whether other light/);
    expect(lines[2]).toMatch(/Colour distance +8 ± 12 .* none the camera can prove/);
    expect(new Set([lines[0], lines[2]].map((line) => line.indexOf('±'))).size).toBe(1);
  });

  it('[CL8] keeps to 100 columns, save a single word that is longer', () => {
    const titles = text.split('\n').filter((line) => !line.includes('name name'));
    expect(Math.max(...titles.map(columnsOf))).toBeLessThanOrEqual(100);
  });

  it('[CL8] shows no luminance in cd/m2, and lets no file name move the cursor', () => {
    expect(text).not.toContain('12.7');
    expect(text).not.toContain('\u001b');
    expect(text).toContain('a\\u000ab\\u001b[2J.jpg');
  });

  it('[CL8] ends with a summary of one line a reading, when there are several', () => {
    expect(text.split('\n').filter((line) => line.includes('Summary of 3'))).toHaveLength(1);
    expect(tableText([rows[0]])).not.toContain('Summary');
  });

  it('[CL8] gives every gate its remedy', () => {
    expect(text).toMatch(/▲ warning {2}The window fills 63 %[^→]*→ Step back until/);
  });
});

describe('tableText, what cannot be given', () => {
  const later = missing(noReference);
  const { colour, evenness, redPrint } = madeUpReading();
  const uncompared = {
    evenness: { ...evenness, toReference: later },
    colour: { ...colour, toReferenceUv: later, toReferenceDeltaE00: later, verdict: 'warm white: a glow of 2640 K' },
    redPrint: { ...redPrint, index: later },
  };

  it('[CL13] is told once at the end when there is no reference; the colour in words takes its place', () => {
    const text = tableText([{ role: 'trial', entry: madeUpReading(uncompared) }]);
    expect(text.match(/--reference/gi)).toHaveLength(1);
    expect(text).toContain('Not compared: name the photo of the filament lamp with --reference');
    expect(text).toMatch(/\n {2}Colour +warm white: a glow of 2640 K\n/);
    expect(text).not.toMatch(/difference/);
  });

  it('[CL13] stays hatched, with what that means at the end, when it was refused', () => {
    const refused = { ...redPrint, index: missing('the room was lit') };
    const text = tableText([{ role: 'trial', entry: madeUpReading({ ...uncompared, redPrint: refused }) }]);
    expect(text).toMatch(/Red print +\/\/\/ +the room was lit\n/);
    expect(text).toContain('/// = no figure');
    expect(tableText([{ role: 'trial', entry: madeUpReading() }])).not.toContain('Not compared');
  });
});

describe('tableText, names', () => {
  const maps = (name: string) => ({
    glowLuminance: `m/${name}.glow-luminance.csv`,
    chromaticity: `m/${name}.chromaticity.csv`,
    printMask: `m/${name}.print-mask.png`,
  });
  const summaryOf = (rows: readonly ReadingRow[]): string => tableText(rows).split('── Summary')[1];

  it('[CL14] readings of one name show what tells them apart: their maps, else their photos', () => {
    const rows = ['x', 'x-2'].map((name) => ({
      role: 'trial' as const,
      entry: madeUpReading({ name: 'x', maps: maps(name) }),
    }));
    expect(summaryOf(rows)).toMatch(/x \(maps: x\).*\n.*x \(maps: x-2\)/);
    const bare = rows.map((row) => ({ ...row, entry: madeUpReading({ name: 'x' }) }));
    expect(summaryOf(bare)).toContain('x (photos/a1.jpg)');
    expect(mapsText(rows, 'm')).toContain('14 files in m\n');
    expect(mapsText(rows, 'm')).toContain('x, x-2');
    expect(mapsText(rows.slice(0, 1), 'm')).toContain('x.window.png, .luminance.png');
    expect(mapsText([], 'm')).toContain('No maps');
  });

  it('[CL14] the summary names windows only when there are several, and keeps long names whole', () => {
    const long = 'Warm white behind two sheets of tracing paper, moved 4 mm further back and turned inwards';
    const rows = ['first', long].map((name) => ({ role: 'trial' as const, entry: madeUpReading({ name }) }));
    expect(summaryOf(rows)).not.toContain(', scale');
    expect(summaryOf(rows).replace(/\s+/g, ' ')).toContain('turned inwards');
    expect(summaryOf(rows)).not.toContain('…');
    const two = [rows[0], { role: 'trial' as const, entry: madeUpReading({ name: 'first', window: 'meter' }) }];
    expect(summaryOf(two)).toContain('first, meter');
  });

  it('[CL14] a photo that failed shows its trial before its path', () => {
    const entry = { file: 'photos/gone.jpg', error: { code: 'X_Y', message: 'gone', remedy: 'Look.' } };
    const text = tableText([{ role: 'trial', entry, failedAs: 'tape' }]);
    expect(text).toMatch(/^── tape ─+\n {2}photos\/gone\.jpg\n/);
  });
});

describe('text columns', () => {
  it('[CL8] wraps at blanks, pads and cuts by columns, counting wide signs as two', () => {
    expect(wrapText('one two three', 7)).toEqual(['one two', 'three']);
    expect([columnsOf('a漢é'), padColumns('abcdef', 4), padColumns('ab', 4)]).toEqual([4, 'abc…', 'ab  ']);
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 1, max: 40 }), (one, n) => columnsOf(padColumns(one, n)) === n),
    );
  });

  it('[CL8] makes control signs visible and leaves all else', () => {
    expect(printable('a\tb\u202ec é😀')).toBe('a\\u0009b\\u202ec é😀');
  });
});
