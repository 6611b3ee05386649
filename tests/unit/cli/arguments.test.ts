import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import { letterDistance, readArguments } from '../../../core/node/cli/arguments';

const rules = { command: 'measure', values: ['size', 'corners'], flags: ['json'] };

describe('readArguments', () => {
  it('[CL1] sorts options, flags and files, with both ways to give a value', () => {
    const read = readArguments(
      ['a b.jpg', '--size', '9x4', '--corners=1,2 3,4', '--json', '--', '-x.png', '--size'],
      rules,
    );
    expect({ values: [...read.values], flags: [...read.flags], files: read.files }).toEqual({
      values: [
        ['size', '9x4'],
        ['corners', '1,2 3,4'],
      ],
      flags: ['json'],
      files: ['a b.jpg', '-x.png', '--size'],
    });
  });

  it('[CL1] takes a value that starts with one dash, as a corner outside the photo does', () => {
    expect(readArguments(['--corners', '-1,2 7,-3'], rules).values.get('corners')).toBe('-1,2 7,-3');
  });

  it.each([
    [['--colour', 'x'], 'OPTION_UNKNOWN', '--colour'],
    [['--sise', '9x4'], 'OPTION_UNKNOWN', '--sise'],
    [['-q'], 'OPTION_UNKNOWN', '-q'],
    [['--size'], 'OPTION_WITHOUT_VALUE', '--size'],
    [['--size', '--json'], 'OPTION_WITHOUT_VALUE', '--size'],
    [['--size', '1x2', '--size', '3x4'], 'OPTION_REPEATED', '--size'],
    [['--json=yes'], 'OPTION_VALUE', '--json'],
  ])('[CL1] refuses %j by name', (words, code, named) => {
    const read = (): unknown => readArguments(words, rules);
    expect(read).toThrow(expect.objectContaining({ kind: 'usage', code, message: expect.stringContaining(named) }));
  });

  it('[CL1] offers the option that was meant', () => {
    expect(() => readArguments(['--cornrs', '1'], rules)).toThrow(
      expect.objectContaining({ remedy: expect.stringContaining('--corners') }),
    );
  });

  it('[CL1] never stops with anything but a usage error, whatever is typed', () => {
    fc.assert(
      fc.property(fc.array(fc.string()), (words) => {
        try {
          readArguments(words, rules);
        } catch (error) {
          expect(error).toBeInstanceOf(AppError);
        }
      }),
    );
  });
});

describe('letterDistance', () => {
  it('[CL1] counts single changes, the same both ways', () => {
    expect([letterDistance('size', 'sise'), letterDistance('corner', 'corners'), letterDistance('', 'abc')]).toEqual([
      1, 1, 3,
    ]);
    fc.assert(fc.property(fc.string(), fc.string(), (a, b) => letterDistance(a, b) === letterDistance(b, a)));
  });
});
