import { describe, expect, it } from 'vitest';
import { matchWhiteBalance } from '../../../core/photo/white-balance';

const nameless = { model: 'One', focalLengthMm: 50, whiteBalance: 'manual' } as const;
const withoutLens = { make: 'Maker', model: 'One', whiteBalance: 'manual' } as const;
const manual = { make: 'Maker', model: 'One', focalLengthMm: 50, whiteBalance: 'manual' } as const;

describe('matchWhiteBalance', () => {
  it.each([
    ['same', manual],
    ['same', { ...manual, focalLengthMm: 50.2 }],
    ['same', withoutLens],
    ['differs', { ...manual, focalLengthMm: 35 }],
    ['differs', { ...manual, model: 'Two' }],
    ['differs', { ...manual, whiteBalance: 'auto' as const }],
    ['unknown', { ...manual, whiteBalance: 'unknown' as const }],
    ['unknown', nameless],
  ] as const)('[LU9] is %s for %j, whichever comes first', (verdict, other) => {
    expect(matchWhiteBalance(manual, other).verdict).toBe(verdict);
    expect(matchWhiteBalance(other, manual)).toEqual(matchWhiteBalance(manual, other));
  });

  it('[LU9] two automatic photos may or may not agree', () => {
    const auto = { ...manual, whiteBalance: 'auto' } as const;
    expect(matchWhiteBalance(auto, auto).verdict).toBe('unknown');
  });
});
