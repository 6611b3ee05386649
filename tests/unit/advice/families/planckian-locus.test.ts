import { expect, it } from 'vitest';
import { markedK, planckianLocus } from '../../../../core/advice/planckian-locus';

it('[LF6] the locus passes where CIE publishes illuminant A, and every mark of the chart lies on it', () => {
  const locus = planckianLocus();
  // 2856 K with c2 of today; CIE 015:2018 gives u' 0.2560, v' 0.5243 to four digits.
  const [before, after] = [2850, 2900].map((kelvin) => locus.find(({ temperatureK }) => temperatureK === kelvin)!);
  const between = (name: 'uPrime' | 'vPrime'): number => before[name] + ((after[name] - before[name]) * 6) / 50;
  expect(between('uPrime')).toBeWithin(0.256, 1e-4);
  expect(between('vPrime')).toBeWithin(0.5243, 1e-4);
  const kelvins = locus.map(({ temperatureK }) => temperatureK);
  expect(markedK.filter((kelvin) => !kelvins.includes(kelvin))).toEqual([]);
  // Hotter is always bluer: u' falls all the way.
  expect(locus.slice(1).every(({ uPrime }, i) => uPrime < locus[i].uPrime)).toBe(true);
});
