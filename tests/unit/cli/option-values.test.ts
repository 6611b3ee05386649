import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import { lightKinds } from '../../../core/contract/light';
import {
  readChoice,
  readCorners,
  readExposure,
  readSize,
  readViewingDistance,
} from '../../../core/node/cli/option-values';

function refusal(read: () => unknown): AppError {
  try {
    read();
  } catch (error) {
    if (error instanceof AppError) return error;
    throw error;
  }
  throw new Error('was accepted');
}

describe('readCorners', () => {
  it('[CL2] reads four points in their order, with signs, fractions and any blanks', () => {
    expect(readCorners(' 1,2  30.5,4\t50,6e1 -7,.8 ')).toEqual([
      { column: 1, row: 2 },
      { column: 30.5, row: 4 },
      { column: 50, row: 60 },
      { column: -7, row: 0.8 },
    ]);
  });

  it.each([
    ['1,2 3,4 5,six 7,8', 'point 3 (bottom-right): y is "six"'],
    ['1,2 3,4 5,6', 'has 3 points'],
    ['1,2 3,4 5,6 7,8 9,10', 'has 5 points'],
    ['1,2 3 5,6 7,8', 'point 2 (top-right) is "3"'],
    ['1,2 3,NaN 5,6 7,8', 'point 2 (top-right): y is "NaN"'],
    ['1,2 3,4 0x10,6 7,8', 'point 3 (bottom-right): x is "0x10"'],
    ['1,2 3,4 5,6 7,1e999', 'point 4 (bottom-left): y'],
    ['', 'has 0 points'],
  ])('[CL2] refuses %j and names the place', (text, place) => {
    expect(refusal(() => readCorners(text)).message).toContain(place);
  });
});

describe('readSize', () => {
  it('[CL2] reads width and height in mm', () => {
    expect([readSize('92x18'), readSize('38.5 X 37 mm'), readSize('2×1000')]).toEqual([
      { widthMm: 92, heightMm: 18 },
      { widthMm: 38.5, heightMm: 37 },
      { widthMm: 2, heightMm: 1000 },
    ]);
  });

  it.each(['92', '92x', 'x18', '92x18x3', '1.9x18', '92x1001', '92x-18', 'wide', '', '0x10x5'])(
    '[CL2] refuses %j',
    (text) => {
      expect(refusal(() => readSize(text)).code).toBe('SIZE_INVALID');
    },
  );
});

describe('a slip of the pen', () => {
  it('[CL2] is told by its name: a comma in a number, a space after a comma', () => {
    expect(refusal(() => readSize('92,5x18')).message).toContain('a decimal point, not a comma');
    const spaced = refusal(() => readCorners('332, 216; 1270, 221; 1269, 405; 331, 399'));
    expect([spaced.message, spaced.remedy]).toEqual([
      '--corners: point 1 (top-left) is "332,", not x,y',
      'Write x,y without a space after the comma, and a space between points.',
    ]);
  });
});

describe('readExposure', () => {
  it('[CL2] reads any part in any order', () => {
    expect([readExposure('1/30 f/4 iso400'), readExposure('ISO 100, F2.8, 0.5s'), readExposure('f8')]).toEqual([
      { exposureS: 1 / 30, fNumber: 4, iso: 400 },
      { exposureS: 0.5, fNumber: 2.8, iso: 100 },
      { fNumber: 8 },
    ]);
  });

  it.each(['', '1/0', '1/2/3', 'f/4 f/5', 'iso', 'fast', '-1', '1/30 4000', 'iso0', 'f/200'])(
    '[CL2] refuses %j',
    (text) => {
      expect(refusal(() => readExposure(text)).code).toBe('EXPOSURE_INVALID');
    },
  );
});

describe('readViewingDistance and readChoice', () => {
  it('[CL2] keep to their ranges', () => {
    expect([readViewingDistance('100'), readViewingDistance('5000 mm')]).toEqual([100, 5000]);
    expect(['99', '5001', 'near', ''].map((text) => refusal(() => readViewingDistance(text)).kind)).toEqual(
      Array(4).fill('usage'),
    );
    expect(readChoice('print', 'dark', ['dark', 'light'])).toBe('dark');
    expect(readChoice('print', 'Dark ', ['dark', 'light'])).toBe('dark');
    expect(refusal(() => readChoice('print', 'bright', ['dark', 'none'])).remedy).toBe('Give one of: dark, none.');
    for (const near of ['warmwhite', 'Warm White', 'warm_white', 'warm-whit']) {
      expect(refusal(() => readChoice('light', near, lightKinds)).remedy).toContain('Did you mean warm-white? ');
    }
  });
});

describe('every reader', () => {
  it('[CL2] answers garbage with a usage error and nothing else', () => {
    const readers = [readCorners, readSize, readExposure, readViewingDistance];
    const typed = fc.oneof(fc.string(), fc.stringMatching(/^[-+0-9.,xfeiso/ ]{0,24}$/));
    fc.assert(
      fc.property(typed, fc.constantFrom(...readers), (text, read) => {
        try {
          const value: unknown = read(text);
          expect(JSON.stringify(value)).not.toMatch(/null|NaN/);
        } catch (error) {
          expect(error).toBeInstanceOf(AppError);
        }
      }),
      { numRuns: 500 },
    );
  });
});
