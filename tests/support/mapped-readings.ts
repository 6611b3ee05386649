import { glowLuminanceCsv } from '../../core/node/map-files/map-csv';
import type { ReadingMaps } from '../../core/contract/measure';
import { drawnLight } from './drawn-maps';

/** A map file of drawn light, its rim of a mm left out as a reading does. */
export function mapText(widthMm: number, heightMm: number, at: (xMm: number, yMm: number) => number): string {
  const glowLuminance = drawnLight(widthMm, heightMm, 4, (x, y) =>
    x < 1 || y < 1 || x > widthMm - 1 || y > heightMm - 1 ? NaN : at(x, y),
  );
  return glowLuminanceCsv({ widthMm, heightMm, exposureNormalised: true, glowLuminance } as ReadingMaps);
}

export interface MadeUpMapped {
  readonly name: string;
  readonly score: number | null;
  readonly plusMinus?: number;
  readonly map: string | null;
  readonly spots?: readonly object[];
  readonly sizeKnown?: boolean;
}

/** A readings file as far as advice reads it. */
export function readingsText(readings: readonly MadeUpMapped[]): string {
  return JSON.stringify({
    format: 'evendial-readings',
    version: 1,
    readings: readings.map(({ name, score, plusMinus = 4, map, spots = [], sizeKnown = true }) => ({
      name,
      evenness: {
        score:
          score === null
            ? { value: null, plusMinus: null, reason: 'the photo is clipped' }
            : { value: score, plusMinus },
      },
      spots,
      outline: { sizeKnown },
      ...(map === null ? {} : { maps: { glowLuminance: map, chromaticity: '', printMask: '' } }),
    })),
  });
}
