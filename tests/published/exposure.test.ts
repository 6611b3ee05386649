import { describe, expect, it } from 'vitest';
import {
  approximateCdM2,
  exposureNormalisation,
  exposureValue100,
  luminanceRatio,
  type Exposure,
} from '../../core/photo/exposure';
import { readPublished } from '../support/csv';
import { workedExamples } from '../support/worked-examples';

const reflected = readPublished('09_reflected_exposure.csv').map((row) => ({
  exposure: { fNumber: Number(row.N_fnumber), exposureS: Number(row.t_s), iso: Number(row.S_iso) } satisfies Exposure,
  row,
}));
const speeds = readPublished('09_iso12232.csv');

describe('published exposure tables', () => {
  it.each(reflected.map(({ exposure, row }) => [exposure, row] as const))(
    '[LU4] EV100 and the metered luminance of %o follow from N^2 / (t S)',
    (exposure, row) => {
      expect(exposureValue100(exposure)).toBeWithin(Number(row.ev100), 2e-9 * 16); // ten digits in the table, inputs too
      const metered = Number(row.K) * exposureNormalisation(exposure);
      expect(metered / Number(row.luminance_cd_m2)).toBeWithin(1, 1e-9);
    },
  );

  it.each(reflected.map(({ exposure, row }) => [exposure, row] as const))(
    '[LU5] the luminance that gives the focal plane exposure of %o comes back',
    (exposure, row) => {
      // H = 10 / S belongs to a relative luminance of 0.18: the table's H stands for 0.18 H S / 10.
      const relLuminance = (0.18 * Number(row.H_metered_lx_s) * exposure.iso) / 10;
      expect(approximateCdM2(relLuminance, exposure) / Number(row.luminance_cd_m2)).toBeWithin(1, 1e-9);
    },
  );

  it.each(readPublished('09_ev100_luminance.csv').map((row) => [row.ev100, row] as const))(
    '[LU4] EV100 %s stands for the published luminance at K = 12.5',
    (ev100, row) => {
      const exposure = { fNumber: 1, exposureS: 2 ** -Number(ev100), iso: 100 };
      expect(exposureValue100(exposure)).toBeWithin(Number(ev100), 1e-12);
      expect(12.5 * exposureNormalisation(exposure)).toBeWithin(Number(row.luminance_cd_m2_K12_5), 1e-9 * 4096);
    },
  );

  it.each(speeds.filter((row) => row.kind === 'exposure_index_10_over_Ha').map((row) => [row.H_lx_s, row] as const))(
    '[LU5] an exposure of %s lx s renders 18 %% at its exposure index',
    (_, row) => {
      const iso = Number(row.result_iso);
      const exposure = { fNumber: 2.8, exposureS: 0.04, iso };
      // L = H N^2 / (q t), q = 0.65
      const expected = (Number(row.H_lx_s) * 2.8 ** 2) / (0.65 * 0.04);
      expect(approximateCdM2(0.18, exposure) / expected).toBeWithin(1, 1e-9);
    },
  );
});

type Shot = { readonly Y: number; readonly N: number; readonly t: number; readonly ISO: number; readonly m?: number };
const exposureOf = ({ N, t, ISO }: Shot): Exposure => ({ fNumber: N, exposureS: t, iso: ISO });

describe('worked exposure examples', () => {
  it.each(workedExamples<Shot, { L_cd_m2: number }>('cdm2').map((e) => [e.id, e] as const))(
    '[LU5] %s',
    (_, { input, expected }) => {
      const luminance = approximateCdM2(input.Y, exposureOf(input), input.m);
      expect(luminance).toBeWithin(expected.L_cd_m2, 0.0005 + 1e-9); // three decimals
    },
  );

  it.each(workedExamples<{ first: Shot; second: Shot }, { ratio: number }>('exp-ratio').map((e) => [e.id, e] as const))(
    '[LU4] %s',
    (_, { input: { first, second }, expected }) => {
      const of = (shot: Shot) => ({ relLuminance: shot.Y, exposure: exposureOf(shot) });
      expect(luminanceRatio(of(first), of(second))).toBeWithin(expected.ratio, 5e-6 + 1e-9); // five decimals
      expect(luminanceRatio(of(second), of(first)) * expected.ratio).toBeWithin(1, 1e-5);
    },
  );

  it('[LU4] an exposure with a part missing stops loudly', () => {
    expect(() => exposureNormalisation({ fNumber: 0, exposureS: 0.1, iso: 100 })).toThrow('not an exposure');
    expect(() => exposureValue100({ fNumber: 4, exposureS: NaN, iso: 100 })).toThrow('not an exposure');
  });
});
