import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { forecastFamilies } from '../../core/advice/usual-questions';
import type { FamilyEntry } from '../../core/contract/lamp-advice';
import type { Figure } from '../../core/contract/figure';
import { m4 } from '../../samples/render/arrangements';
import type { Camera } from '../../samples/render/index';
import type { SetTruth } from '../../samples/render/sets/set-truth';
import { cameraFor } from '../support/advice/scenes';
import { besideFilament, type Family, lampsBehind, type LightField, ofMeter, ofScale, sampleFields } from '../support/filament-trials'; // prettier-ignore
import { isLongRun, patienceMs, sampled } from '../support/long-run';

/** Every lamp that the render script can draw, and what it is called where lamps are bought. */
const soldAs: Readonly<Record<Family, string>> = {
  filament: 'filament 2400 K',
  'warm-white': 'white 2700 K, ordinary',
  'cool-white': 'cool white',
  'phosphor-amber': 'phosphor amber',
  'narrow-amber': 'narrow amber',
  'red+green': 'red + green',
  'red+yellow-green': 'red + yellow-green',
  red: 'red',
};
const all = Object.keys(soldAs) as Family[];
const shown: readonly Family[] = isLongRun ? all : ['warm-white', 'narrow-amber', 'red+green'];
const cameras = isLongRun ? (['everyday', 'broad', 'colorimetric'] as const) : (['everyday'] as const);

/** One exposure for all lamps of a field, as a restorer keeps it: that of the brightest. */
function cameraOf(field: LightField, changes: Partial<Camera>): Camera {
  const framed = field.windowOf === m4 ? ofMeter(changes) : ofScale(700, changes);
  const exposures = all.map((family) => cameraFor(lampsBehind(field, family), framed).exposureS);
  return { ...framed, fNumber: 4, iso: 100, exposureS: Math.min(...exposures) };
}

interface Compared {
  readonly where: string;
  readonly family: Family;
  readonly forecast: FamilyEntry;
  readonly truth: number;
  readonly measured: Figure;
}
const compared: Compared[] = [];

beforeAll(async () => {
  const forecasts = new Map(forecastFamilies(2400, false).map((entry) => [entry.name, entry]));
  for (const [name, field] of sampled(Object.entries(sampleFields), 100)) {
    for (const colour of cameras) {
      const camera = cameraOf(field, { colour });
      const [reference, ...trials] = await besideFilament({ field, camera, families: ['filament', ...shown] }); // prettier-ignore
      compared.push(
        ...trials.map(({ family, reading, truth }) => ({
          where: `${name}, ${colour}`,
          family,
          forecast: forecasts.get(soldAs[family])!,
          truth: (100 * truth.redness) / reference.truth.redness,
          measured: reading.redPrint.index,
        })),
      );
    }
  }
}, patienceMs);

const line = ({ where, family, forecast: { low, index, high }, truth, measured }: Compared): string =>
  `${where}: ${family}: forecast ${index.toFixed(0)} (${low.toFixed(0)} to ${high.toFixed(0)}), true ${truth.toFixed(1)}, measured ${measured.value?.toFixed(1) ?? measured.reason} +- ${measured.plusMinus?.toFixed(1)}`;
afterAll(() => {
  if (isLongRun) console.info(compared.map(line).join('\n'));
});

describe('the lamps of the sample sets', () => {
  /** As the tries are called. */
  const tries: Readonly<Record<string, string>> = {
    'Warm-white LEDs': 'white 2700 K, ordinary',
    'Cool-white LEDs': 'cool white',
    'Amber LEDs with phosphor': 'phosphor amber',
    'Narrow amber LEDs': 'narrow amber',
    'Red and green mixed': 'red + green',
    'Red and yellow-green mixed': 'red + yellow-green',
  };
  it.each(['lamps-dark', 'lamps-lit'])('[LF3] %s: what is true of each lies in the range of its kind', (set) => {
    const truth = JSON.parse(readFileSync(`samples/sets/${set}.truth.json`, 'utf8')) as SetTruth;
    const forecasts = forecastFamilies(2400, false);
    expect(truth.tries.map(({ name }) => name)).toEqual(Object.keys(tries));
    for (const { name, redPrintIndex } of truth.tries) {
      const { low, high } = forecasts.find((one) => one.name === tries[name])!;
      expect(redPrintIndex! >= low && redPrintIndex! <= high, `${name}: ${redPrintIndex} of ${low} to ${high}`).toBe(true); // prettier-ignore
    }
  });
});

describe('what is forecast of a lamp before it is bought, beside photos of it in every light field of the samples', () => {
  it('[LF3] the range holds what the lamp truly does to the red print', () => {
    for (const one of compared) {
      const { forecast, truth } = one;
      expect(truth >= forecast.low && truth <= forecast.high, line(one)).toBe(true);
    }
  });

  it('[LF3] what the photo measures agrees with the range, within the plus-minus of the photo', () => {
    expect(compared.length).toBe(shown.length * cameras.length * (isLongRun ? Object.keys(sampleFields).length : 1));
    for (const one of compared) {
      const { forecast, measured, family } = one;
      if (measured.value === null) {
        // Red alone makes red print as bright as the glow: some photos show none, which is what "red lost" forecasts.
        expect([family, forecast.words], line(one)).toEqual(['red', 'red lost']);
        continue;
      }
      expect(measured.value + measured.plusMinus!, line(one)).toBeGreaterThanOrEqual(forecast.low);
      expect(measured.value - measured.plusMinus!, line(one)).toBeLessThanOrEqual(forecast.high);
    }
  });

  it('[LF3] of two lamps whose ranges lie apart, the photos have the same one redder', () => {
    for (const a of compared) {
      for (const b of compared.filter(({ where }) => where === a.where)) {
        if (a.forecast.high >= b.forecast.low || a.measured.value === null) continue;
        expect(a.measured.value, `${line(a)}\n${line(b)}`).toBeLessThan(b.measured.value!);
      }
    }
  });
});
