import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assertJson, jsonMistake } from '../../../core/node/cli/json-syntax';
import { systemWords } from '../../../core/node/system-words';

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch (error) {
    if (error instanceof SyntaxError) return false;
    throw error;
  }
}

describe('jsonMistake', () => {
  it.each([
    ['{\n "a": 1\n "b": 2 }', 3, '"b"', 'a comma or }'],
    ['{ "a": [1, 2,\n ] }', 2, ']', 'a value'],
    ['{ "a": 1,\n}', 2, '}', 'a name in quotation marks'],
    ["{ 'a': 1 }", 1, "'", 'a name in quotation marks, or }'],
    ['{ "a": 92,5 }', 1, '5', 'a name in quotation marks'],
    ['{ "a": 01 }', 1, '01', 'a value'],
    ['{ "a": yes }', 1, 'yes', 'a value'],
    ['{ "a" 1 }', 1, '1', 'a colon'],
    ['{ "a": 1\n\n', 1, 'the end of the file', 'a comma or }'],
    ['{} {}', 1, '{', 'the end of the file'],
    ['', 1, 'the end of the file', 'a value'],
  ])('[CL17] of %j is on line %i', (text, line, found, expected) => {
    expect(jsonMistake(text)).toEqual({ line, found, expected });
  });

  it('[CL17] is found exactly where the parser refuses a text', () => {
    const pieces = [
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '""',
      '"\\n"',
      '"\\x"',
      '1',
      '-0.5e3',
      '01',
      '.5',
      'true',
      'x',
      '"',
    ];
    const text = fc.array(fc.constantFrom(...pieces, ' ', '\n'), { maxLength: 9 }).map((parts) => parts.join(''));
    fc.assert(
      fc.property(fc.oneof(text, fc.json(), fc.string()), (one) => (jsonMistake(one) === null) === isJson(one)),
      { numRuns: 3000 },
    );
  });

  it('[CL17] is told with its line, in plain words', () => {
    expect(() => assertJson('{\n "a": 1\n "b": 2 }', 's.json')).toThrow(
      's.json is not JSON: line 3: found "b" where a comma or } should be',
    );
    expect(() => assertJson('{ "a": ', 's.json')).toThrow(/line 1: the file ends where a value should be/);
  });
});

describe('systemWords', () => {
  it('[CL17] says in plain words what the system says', () => {
    const error = (code: string): Error => Object.assign(new Error(`${code}: no such thing, open 'x'`), { code });
    expect(systemWords(error('ENOENT'))).toBe('there is no file or folder of this name');
    expect(systemWords(error('EXDEV'))).toBe('the system refused it (EXDEV)');
    expect(systemWords('odd')).toBe('the system refused it');
  });
});
