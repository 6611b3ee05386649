import { describe, expect, it } from 'vitest';
import { pointText } from '../../../core/display/point-text';

describe('pointText', () => {
  it('[EV8] is per cent of the brightest to the place of its plus-minus, which the brightest has none of', () => {
    expect([pointText(0.7834, 0.0412), pointText(0.7834, 0.0042), pointText(1, 0)]).toEqual([
      '78 ± 5',
      '78.3 ± 0.5',
      '100',
    ]);
  });
});
