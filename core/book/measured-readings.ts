import type { MeasuredWindow, MeasureResult } from '../contract/measure';
import type { Reading } from '../contract/readings';
import type { UnitReading } from '../contract/unit-record';

/** What a record keeps of one measured window. @param program  name and version of what measured @rule BK13 */
export function readingToKeep(entry: MeasuredWindow, measuredAt: string, program: string): UnitReading {
  const reading: Reading = entry.reading;
  return {
    trial: entry.role === 'reference' ? null : reading.name,
    window: reading.window,
    photo: reading.photos[0].sha256,
    measuredAt,
    program,
    evenness: reading.evenness.score,
    evennessWords: reading.evenness.words,
    redPrint: reading.redPrint.index,
    redPrintWords: reading.redPrint.words,
    toReferenceUv: reading.colour.toReferenceUv,
    colourWords: reading.colour.verdict,
    gates: reading.gates.map(({ code, level }) => ({ code, level })),
  };
}

/**
 * What a record keeps of a measurement: the leading figures of each window that could be measured.
 *
 * @param program  name and version of what measured
 * @rule BK13
 */
export function readingsToKeep(result: MeasureResult, measuredAt: string, program: string): UnitReading[] {
  return result.windows.flatMap((entry) => ('reading' in entry ? [readingToKeep(entry, measuredAt, program)] : []));
}
