import { describe, expect, it } from 'vitest';
import type { ComparedFigure, Pair } from '../../../core/contract/comparison';
import { standingLine, standings } from '../../../renderer/state/pair-words';

const apart = (value: number): ComparedFigure => ({ difference: { value, plusMinus: 1 }, toldApart: true });
const alike: ComparedFigure = { difference: { value: 0.1, plusMinus: 1 }, toldApart: false };
const missing = (reason: string): ComparedFigure => ({
  difference: { value: null, plusMinus: null, reason },
  toldApart: false,
});
const pairOf = (change: Partial<Pair>): Pair => ({
  a: 'id-1',
  b: 'id-2',
  window: 'window',
  evenness: alike,
  redPrint: alike,
  colour: alike,
  luminance: alike,
  ...change,
});
const nameOf = (id: string): string => ({ 'id-1': 'one.jpg', 'id-2': 'two.jpg' })[id] ?? id;

describe('how one photo stands to another', () => {
  it('[SC18] is the same seen from either: the one is better where the other is worse', () => {
    const pair = pairOf({ evenness: apart(14), colour: apart(0.01) });
    const [first, second] = ['id-1', 'id-2'].map((id) => standings(pair, id, nameOf));
    // b has 14 points more and lies 0.010 farther from the filament.
    expect(first.map(({ word }) => word)).toEqual(['worse', 'cannot be told apart', 'better', 'cannot be told apart']);
    expect(second.map(({ word }) => word)).toEqual(['better', 'cannot be told apart', 'worse', 'cannot be told apart']);
    expect(first[0].difference.value).toBe(-14);
    expect(second[0].difference.value).toBe(14);
    expect(standingLine(first, 'two.jpg')).toBe('Better in colour distance, worse in evenness than two.jpg.');
    expect(standingLine(second, 'one.jpg')).toBe('Better in evenness, worse in colour distance than one.jpg.');
  });

  it('[SC18] redder is no praise and no blame', () => {
    const lines = standings(pairOf({ redPrint: apart(30) }), 'id-2', nameOf);
    expect(lines[1].word).toBe('redder');
    expect(standingLine(lines, 'one.jpg')).toBe('Cannot be told apart from one.jpg.');
  });

  it('[SC18] luminance is a ratio: ln 2 is twice the other, with its plus-minus', () => {
    const luminance = { difference: { value: Math.log(2), plusMinus: 0.1 }, toldApart: true };
    const [, , , line] = standings(pairOf({ luminance }), 'id-2', nameOf);
    expect(line).toMatchObject({ word: 'brighter', scale: 1 });
    expect(line.difference.value).toBeCloseTo(2, 12);
    expect(line.difference.plusMinus).toBeCloseTo(0.2, 12);
    const [, , , back] = standings(pairOf({ luminance }), 'id-1', nameOf);
    expect(back.difference.value).toBeCloseTo(0.5, 12);
    expect(back.word).toBe('dimmer');
  });

  it('[SC18] a figure that is missing says why, in the names that the user knows', () => {
    const [, line] = standings(pairOf({ redPrint: missing('id-2: no red print was found') }), 'id-1', nameOf);
    expect(line.word).toBe('two.jpg: no red print was found');
    expect(line.difference.value).toBeNull();
  });
});
