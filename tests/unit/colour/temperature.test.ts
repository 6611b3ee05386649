import { describe, expect, test } from 'vitest';
import {
  type Uv1960,
  uv1960FromXyz,
  uv1976FromUv1960,
  uv1976FromXyz,
  xyFromXyz,
} from '../../../core/colour/chromaticity';
import { planckSpectrum, spectrumFromTable, xyzFromSpectrum } from '../../../core/colour/spectra';
import { colourTemperatureOf } from '../../../core/colour/temperature';
import { workedExamples } from '../../support/worked-examples';

const locusAt = (temperatureK: number): Uv1960 => uv1960FromXyz(xyzFromSpectrum(planckSpectrum(temperatureK)));

/** A point at a given Duv off the locus, square to it: the forward construction, without the method under test. */
function pointAt(temperatureK: number, duv: number): Uv1960 {
  const [before, at, after] = [temperatureK * 0.9999, temperatureK, temperatureK * 1.0001].map(locusAt);
  const [du, dv] = [after.u - before.u, after.v - before.v];
  const length = Math.sqrt(du * du + dv * dv);
  return { u: at.u + (duv * dv) / length, v: at.v - (duv * du) / length };
}

describe('colourTemperatureOf', () => {
  test('[CO9] gives back the temperature and Duv of constructed points, from end to end', () => {
    for (const temperatureK of [1000, 1003, 1450, 1999, 2400, 2701, 2856, 4100, 6504, 12_345]) {
      for (const duv of [-0.04, -0.012, -0.0021, -0.0019, 0, 0.0007, 0.0019, 0.0021, 0.006, 0.03]) {
        const found = colourTemperatureOf(uv1976FromUv1960(pointAt(temperatureK, duv)))!;
        // Ohno's own bound: 1 K from 2000 to 20 000 K; 1e-4 measured here
        expect(found.cctK! / temperatureK).toBeWithin(1, 1e-4);
        expect(found.duv).toBeWithin(duv, 2e-6);
      }
    }
  });

  test('[CO9] above the locus, towards green, is positive', () => {
    const { u, v } = locusAt(2450);
    expect(colourTemperatureOf(uv1976FromUv1960({ u, v: v + 0.004 }))!.duv).toBeGreaterThan(0.003);
    expect(colourTemperatureOf(uv1976FromUv1960({ u, v: v - 0.004 }))!.duv).toBeLessThan(-0.003);
  });

  test('[CO10] no temperature beyond |Duv| 0.05, nor colder than 1000 K or hotter than 20 000 K; Duv stays', () => {
    const limits = [-0.0502, -0.0498, 0.0498, 0.0502].map((duv) =>
      colourTemperatureOf(uv1976FromUv1960(pointAt(3300, duv))),
    );
    expect(limits.map((found) => found!.cctK === null)).toEqual([true, false, false, true]);
    expect(limits[3]!.duv).toBeWithin(0.0502, 2e-6);
    for (const temperatureK of [940, 21_000, 40_000]) {
      expect(colourTemperatureOf(uv1976FromUv1960(locusAt(temperatureK)))!.cctK).toBeNull();
    }
    expect(colourTemperatureOf(uv1976FromUv1960(locusAt(20_000)))!.cctK!).toBeWithin(20_000, 1);
  });

  test('[CO2] [CO10] black has neither', () => {
    expect(colourTemperatureOf(uv1976FromXyz([0, 0, 0]))).toBeNull();
  });

  test.each(workedExamples<{ uv: [number, number] }, { CCT: number; Duv: number }>('cct-'))('[CO9] $id', (example) => {
    const found = colourTemperatureOf(uv1976FromUv1960({ u: example.input.uv[0], v: example.input.uv[1] }))!;
    const allowed = example.tolerance as { CCT: number; Duv: number };
    expect(found.duv).toBeWithin(example.expected.Duv, allowed.Duv);
    expect(found.cctK!).toBeWithin(example.expected.CCT, allowed.CCT);
  });

  interface PlanckAnswer {
    readonly xy: [number, number];
    readonly u_v_prime: [number, number];
    readonly CCT: number;
    readonly Duv: number;
  }
  test.each(workedExamples<{ T: number }, PlanckAnswer>('planck-'))('[CO8] [CO9] $id', (example) => {
    const xyz = xyzFromSpectrum(planckSpectrum(example.input.T));
    const allowed = example.tolerance as { xy: number; u_v_prime: number; CCT: number; Duv: number };
    const [xy, uv] = [xyFromXyz(xyz), uv1976FromXyz(xyz)];
    expect(xy.x).toBeWithin(example.expected.xy[0], allowed.xy);
    expect(xy.y).toBeWithin(example.expected.xy[1], allowed.xy);
    expect(uv.uPrime).toBeWithin(example.expected.u_v_prime[0], allowed.u_v_prime);
    expect(uv.vPrime).toBeWithin(example.expected.u_v_prime[1], allowed.u_v_prime);
    const found = colourTemperatureOf(uv)!;
    expect(found.cctK!).toBeWithin(example.expected.CCT, allowed.CCT);
    expect(found.duv).toBeWithin(example.expected.Duv, allowed.Duv);
  });
});

describe('spectra', () => {
  test('[CO8] a hotter black body is brighter at every wavelength and bluer', () => {
    const [cool, warm] = [planckSpectrum(2100), planckSpectrum(2800)];
    for (let nm = 380; nm <= 780; nm += 50) expect(warm(nm)).toBeGreaterThan(cool(nm));
    expect(warm(450) / warm(650)).toBeGreaterThan(2 * (cool(450) / cool(650)));
    expect(() => planckSpectrum(0)).toThrow(RangeError);
    expect(() => planckSpectrum(NaN)).toThrow(RangeError);
  });

  test('[CO8] a table is linear in between and dark outside', () => {
    const spectrum = spectrumFromTable([400, 410, 430], [2, 6, 0]);
    expect([399, 400, 405, 410, 425, 430, 431].map(spectrum)).toEqual([0, 2, 4, 6, 1.5, 0, 0]);
    expect(() => spectrumFromTable([400, 410], [1])).toThrow(RangeError);
    expect(() => spectrumFromTable([410, 400], [1, 2])).toThrow('rise');
  });

  test('[CO8] light adds', () => {
    const [a, b] = [planckSpectrum(2222), spectrumFromTable([450, 620], [3e9, 5e9])];
    const [ofA, ofB] = [xyzFromSpectrum(a), xyzFromSpectrum(b)];
    xyzFromSpectrum((nm) => a(nm) + b(nm)).forEach((value, i) =>
      expect(value / (ofA[i] + ofB[i])).toBeWithin(1, 1e-12),
    );
  });
});
