import { describe, expect, it } from 'vitest';
import { triedDistance } from '../../../core/advice/tried-distance';
import { triedWords } from '../../../core/display/tried-words';

const target = { uPrime: 0.28, vPrime: 0.54 };
const photographed = (plusU: number, plusV: number) => ({ plusMinus: { uPrime: plusU, vPrime: plusV } });

describe('triedDistance', () => {
  it("[LA19] counts in steps of 0.0011 in u'v', and a stated colour has no plus-minus", () => {
    const tried = triedDistance({ uPrime: 0.2833, vPrime: 0.5444 }, target);
    expect(tried.missUv).toBeWithin(0.0055, 1e-12); // 3, 4, 5
    expect(tried.missSteps).toBeWithin(5, 1e-9);
    expect([tried.plusMinusSteps, triedWords(tried)]).toEqual([null, '5.0 steps']);
  });

  it('[LA19] the plus-minus is that along the line between them, of both photos', () => {
    const along = { uPrime: 0.2911, vPrime: 0.54 };
    const own = triedDistance({ ...along, ...photographed(0.0033, 0.02) }, target);
    expect(own.plusMinusSteps).toBeWithin(3, 1e-9); // what lies across does not count
    const both = triedDistance(
      { ...along, ...photographed(0.0033, 0.02) },
      { ...target, ...photographed(0.0044, 0.01) },
    );
    expect(both.plusMinusSteps).toBeWithin(5, 1e-9);
    expect(triedWords(both)).toBe('10 ± 5 steps');
    const same = triedDistance({ ...target, ...photographed(0.0033, 0.0044) }, target);
    expect([same.missSteps, same.plusMinusSteps]).toEqual([0, expect.closeTo(5, 9)]);
  });
});
