import { describe, expect, it } from 'vitest';
import { createPlane } from '../../../core/base/plane';
import { helperPhotoGates } from '../../../core/reading/gates/helper-photos';

const plane = createPlane(1, 1);
const subtracted = {
  state: 'subtracted',
  room: { red: plane, green: plane, blue: plane },
  scale: 1,
  negatives: 3,
  registration: null,
} as const;

describe('helperPhotoGates', () => {
  it('[GT6] says nothing without helper photos, nor when they fit', () => {
    expect(helperPhotoGates({ lampOff: null, flatField: null })).toEqual([]);
    const lampOff = { ...subtracted, negativeShare: 0.01 };
    expect(helperPhotoGates({ lampOff, flatField: { state: 'divided', lens: plane } })).toEqual([]);
  });

  it('[GT6] warns with the reason why a photo was left aside', () => {
    const gates = helperPhotoGates({
      lampOff: { state: 'refused', reason: 'the f-numbers differ' },
      flatField: { state: 'refused', reason: 'it is too dark' },
    });
    expect(gates.map(({ code, level }) => [code, level])).toEqual([
      ['LAMP_OFF_MISMATCH', 'warn'],
      ['FLAT_FIELD_UNUSABLE', 'warn'],
    ]);
    expect(gates[0].message).toMatch(/the f-numbers differ. It was not subtracted/);
    expect(gates[1].message).toMatch(/it is too dark. The light was not divided/);
  });

  it('[GT6] warns when more than 5 % of the glow is darker than the room alone', () => {
    const [gate] = helperPhotoGates({ lampOff: { ...subtracted, negativeShare: 0.12 }, flatField: null });
    expect(gate).toMatchObject({ code: 'LAMP_OFF_MISMATCH', level: 'warn', value: 0.12 });
    expect(gate.message).toMatch(/^12 %/);
  });
});
