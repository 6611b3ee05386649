import { expect, test } from 'vitest';
import { readFileSync } from 'node:fs';
import { filamentExponents, reratedLamp } from '../../core/advice/filament';
import { nearestOhm, nextHigherOhm, resistorSeries } from '../../core/advice/resistors';
import { planString } from '../../core/advice/strings';
import { usualLeds } from '../../renderer/state/mix-form';
import { readPublished } from '../support/csv';

const published = JSON.parse(readFileSync(new URL('data/11_e_series.json', import.meta.url), 'utf8')) as Readonly<
  Record<'E12' | 'E24' | 'E96', number[]>
>;

test('11 [LA8] every preferred value of E12, E24 and E96 is its own nearest and next higher, in every decade', () => {
  for (const series of resistorSeries) {
    for (const digits of published[series]) {
      for (const power of [-1, 0, 1, 3]) {
        const ohm = Number(`${digits}e${power}`);
        expect([nearestOhm(ohm, series), nextHigherOhm(ohm, series)]).toEqual([ohm, ohm]);
        // just above, the next value is another one: none is missing in between
        expect(nextHigherOhm(ohm * 1.0001, series)).toBeGreaterThan(ohm);
      }
    }
    const all = published[series].length;
    let steps = 0;
    for (let ohm = nextHigherOhm(100, series); ohm < 1000; ohm = nextHigherOhm(ohm * 1.0001, series)) steps++;
    expect(steps).toBe(all);
  }
});

test('11 [LA8] next higher values of the table, and nearest ones: by ratio, which differs from the difference where stated', () => {
  const rows = readPublished('11_e_series_lookup.csv');
  expect(rows).toHaveLength(20);
  const byRatio: string[] = [];
  for (const row of rows) {
    const ohm = Number(row['R_ohm']);
    for (const series of resistorSeries) {
      expect(nextHigherOhm(ohm, series)).toBe(Number(row[`${series}_next_up`]));
      const byDifference = Number(row[`${series}_nearest_abs`]);
      const nearest = nearestOhm(ohm, series);
      if (nearest === byDifference) continue;
      byRatio.push(`${ohm} ${series}: ${nearest} for ${byDifference}`);
      expect(Math.abs(Math.log(nearest / ohm))).toBeLessThan(Math.abs(Math.log(byDifference / ohm)));
    }
  }
  // the table's nearest has the smallest difference, ours the smallest ratio
  expect(byRatio).toEqual(['91000 E12: 100000 for 82000']);
});

test('11 [LA8, LA9] one string: resistance, volts and power of the published sums', () => {
  const rows = readPublished('11_led_series_resistor.csv');
  expect(rows).toHaveLength(11);
  for (const row of rows) {
    const number = (name: string): number => Number(row[name]);
    const ledsV = number('n_series') * number('Vf_V');
    const wish = { supplyV: number('V_supply_V'), ledsV, currentMa: number('I_mA'), maxMa: 30, series: 'E24' as const };
    const plan = planString(wish);
    // 10 digits in the table
    expect(plan.resistorOhm).toBeWithin(number('R_ohm'), 1e-6 * number('R_ohm'));
    expect((plan.currentMa ** 2 * plan.resistorOhm) / 1e6).toBeWithin(number('P_resistor_W'), 1e-9);
    expect(plan.dropShare * wish.supplyV).toBeWithin(number('V_resistor_V'), 1e-9);
    expect([nextHigherOhm(plan.resistorOhm, 'E12'), nextHigherOhm(plan.resistorOhm, 'E24')]).toEqual([
      number('R_E12_up'),
      number('R_E24_up'),
    ]);
    // held to its nominal current, a string takes the next higher value, as the table does
    const held = planString({ ...wish, maxMa: wish.currentMa });
    if (held.nearestOhm === number('R_E24_up')) {
      expect(held.currentWithNearestMa).toBeWithin(number('I_with_E24_up_mA'), 1e-6);
    }
    expect(held.currentWithNearestMa).toBeLessThanOrEqual(wish.currentMa * (1 + 1e-9));
  }
});

test('11 [SC21] the lamps that the form begins with have forward voltages of the published ranges', () => {
  const rows = readPublished('11_led_forward_voltage_ranges.csv');
  expect(rows).toHaveLength(10);
  for (const { Vf_min_V: least, Vf_max_V: most } of rows) expect(Number(least)).toBeLessThan(Number(most));
  for (const { name, forwardV } of usualLeds) {
    const row = rows.find(({ colour }) => colour === name || colour.startsWith(`${name} (InGaN`))!;
    expect(Number(forwardV), name).toBeGreaterThanOrEqual(Number(row['Vf_min_V']));
    expect(Number(forwardV), name).toBeLessThanOrEqual(Number(row['Vf_max_V']));
  }
});

test('12 [LA11] colour temperature and light of filament lamps away from their rated volts', () => {
  const rows = readPublished('12_filament_worked.csv');
  expect(rows).toHaveLength(11);
  for (const row of rows) {
    const ratio = Number(row['V_over_Vrated']);
    for (const ratedK of [2700, 2856]) {
      const lamp = reratedLamp(ratedK, 6.3 * ratio, 6.3);
      // 10 digits in the table
      expect(lamp.cctK).toBeWithin(Number(row[`cct_K_if_rated_${ratedK}`]), 1e-5);
      expect(lamp.fluxRatio).toBeWithin(Number(row['flux_ratio_3_5']), 1e-8);
      expect(lamp.isExtrapolated).toBe(ratio < 0.9 || ratio > 1.1);
      expect(lamp.lowK <= lamp.cctK && lamp.cctK <= lamp.highK).toBe(true);
      expect(lamp.cctK / ratedK).toBeWithin(Number(row['cct_ratio_0_42']), 1e-9);
    }
    const { current, power, flux, life } = filamentExponents;
    for (const [column, exponent] of [
      ['current_ratio_0_55', current],
      ['power_ratio_1_6', power],
      ['flux_ratio_3_4', flux.low],
      ['life_ratio_m12', life.high],
      ['life_ratio_m16', life.low],
    ] as const) {
      expect(ratio ** exponent / Number(row[column]), column).toBeWithin(1, 1e-9);
    }
  }
});

test('12 [LA11] the exponents are those of the published ranges', () => {
  const row = (start: string): Record<string, string> =>
    readPublished('12_filament_exponents.csv').find((one) => one['quantity'].startsWith(start))!;
  const { colourTemperature, flux, current, power, life } = filamentExponents;
  expect([colourTemperature.low, colourTemperature.typical]).toEqual(
    ['exponent_low', 'typical'].map((name) => Number(row('colour temperature')[name])),
  );
  expect([flux.low, flux.high]).toEqual(['exponent_low', 'typical'].map((name) => Number(row('luminous flux')[name])));
  expect([current, power]).toEqual([Number(row('current')['typical']), Number(row('power')['typical'])]);
  expect([life.low, life.high]).toEqual(['exponent_low', 'exponent_high'].map((name) => Number(row('life')[name])));
});
