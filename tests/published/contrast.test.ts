import { describe, expect, it } from 'vitest';
import { weberContrast } from '../../core/reading/contrast';
import { contrastSensitivity } from '../../core/reading/contrast-sensitivity';
import { muraIndex } from '../../core/reading/mura-index';
import { readPublished } from '../support/csv';
import { workedExamples } from '../support/worked-examples';

/** "u=2 cpd; L=5 cd/m2; X0=10 deg" in parts. */
function argumentsOf(text: string): { u: number; L: number; fieldDeg: number } {
  const found = /^u=([\d.]+) cpd; L=([\d.]+) cd\/m2; (?:X0=Y0|X0)=([\d.]+) deg/.exec(text);
  if (!found) throw new Error(`not understood: ${text}`);
  return { u: Number(found[1]), L: Number(found[2]), fieldDeg: Number(found[3]) };
}

const barten = readPublished('10_barten_csf.csv');
const rowsOf = (kind: string) =>
  barten.filter((row) => row.function === kind).map((row) => [row.arguments, Number(row.value)] as const);

describe('published contrast sensitivity', () => {
  it('[EV2] both groups of rows are there', () => {
    expect([rowsOf('S_simplified_2003').length, rowsOf('S_default').length]).toEqual([10, 28]);
  });

  it.each(rowsOf('S_simplified_2003'))('[EV2] the simplified formula: %s is %d', (text, value) => {
    const { u, L, fieldDeg } = argumentsOf(text);
    expect(contrastSensitivity(u, L, fieldDeg * fieldDeg) / value).toBeWithin(1, 1e-9); // ten digits
  });

  it.each(rowsOf('S_default').filter(([text]) => text.includes('X0=Y0=10 deg') && !text.includes('L=1 cd')))(
    '[EV2] the simplified formula runs 0 to 16 %% below the full model: %s is %d',
    (text, value) => {
      const { u, L, fieldDeg } = argumentsOf(text);
      // Compared at 5 cd/m2 and above, the score's own luminance being 10; half a per cent for the rounded range.
      expect(contrastSensitivity(u, L, fieldDeg * fieldDeg) / value).toBeWithin(0.92, 0.085);
    },
  );
});

describe('published blemish index', () => {
  it.each(readPublished('10_semi_d31_index.csv').map((row) => [row.S_mm2, row] as const))(
    '[EV7] a blemish of %s mm2',
    (_, row) => {
      const index = muraIndex(Number(row.C_percent_of_background), Number(row.S_mm2));
      expect(index).toBeWithin(Number(row.index), 1e-9 * 5);
      expect(index).toBeWithin(Number(row.index_1_decimal), 0.05);
    },
  );

  it.each(
    workedExamples<{ C_percent: number; S_mm2: number }, { SEMU: number }>('semu').map((e) => [e.id, e] as const),
  )('[EV7] %s', (_, { input, expected }) => {
    expect(muraIndex(input.C_percent, input.S_mm2)).toBeWithin(expected.SEMU, 5e-4 + 1e-9); // three decimals
    expect(muraIndex(-input.C_percent, input.S_mm2)).toBe(muraIndex(input.C_percent, input.S_mm2));
  });

  it('[EV7] no area: stops loudly', () => expect(() => muraIndex(3, 0)).toThrow('not an area'));
});

describe('published Weber contrast', () => {
  it.each(readPublished('10_contrast_weber_michelson.csv').map((row) => [row.L_target_cd_m2, row] as const))(
    '[LU6] a mark of %s cd/m2',
    (target, row) => {
      const contrast = weberContrast(Number(target), Number(row.L_background_cd_m2));
      expect(contrast).toBeWithin(Number(row.weber), 1e-9);
    },
  );
});
