import { missing } from '../../contract/figure';
import type { FailedWindow, MeasuredWindow, MeasureJob } from '../../contract/measure';
import type { Reading } from '../../contract/readings';
import { bySeverity } from '../../reading/gates/gate';
import type { ComparedWindow } from '../compared-window';
import { colourAgainst } from './colour';
import { evennessAgainst } from './evenness';
import { referenceGates } from './gates';
import { luminanceAgainst } from './luminance';
import { photoPair } from './photo-pair';
import { redPrintAgainst } from './red-print';

function comparedOf({ reading, facts, witness }: MeasuredWindow): ComparedWindow {
  return { reading, facts, witness: witness && 'xyz' in witness ? witness : null };
}

/** The trial's reading with every figure that is relative to the reference. */
function readingAgainst(trial: MeasuredWindow, reference: MeasuredWindow): Reading {
  const own = comparedOf(trial);
  const pair = photoPair(own, trial === reference ? own : comparedOf(reference));
  return {
    ...trial.reading,
    gates: bySeverity([...trial.reading.gates, ...referenceGates(pair)]),
    evenness: evennessAgainst(pair),
    luminance: luminanceAgainst(pair),
    colour: colourAgainst(pair),
    redPrint: redPrintAgainst(pair),
  };
}

/** A reading whose reference could not be measured. */
function readingWithout({ reading }: MeasuredWindow, reason: string): Reading {
  const none = missing(reason);
  return {
    ...reading,
    evenness: { ...reading.evenness, toReference: none },
    luminance: { ...reading.luminance, ofReference: none },
    colour: { ...reading.colour, toReferenceUv: none, toReferenceDeltaE00: none },
    redPrint: { ...reading.redPrint, darkContrastKept: none, visibilityRatio: none },
  };
}

type Entry = MeasuredWindow | FailedWindow;

/**
 * Sets every reading beside the reference's of the same window; beside the only one, where one window was named to stand for
 * all. The reference's own are 100 % and 0. Without a reference all stays as it is.
 *
 * @param jobs of the windows
 * @rule RF1
 */
export function withReference(entries: readonly Entry[], jobs: readonly MeasureJob[]): Entry[] {
  const job = jobs.find(({ role }) => role === 'reference');
  if (!job) return [...entries];
  const measured = entries.filter((one): one is MeasuredWindow => 'reading' in one && one.role === 'reference');
  const failed = entries.find((one): one is FailedWindow => 'failed' in one && one.role === 'reference');
  return entries.map((one) => {
    if ('failed' in one) return one;
    const own = measured.find(({ reading }) => reading.window === one.reading.window);
    const reference = one.role === 'reference' ? one : job.standsForAll === true ? measured.at(0) : own;
    if (reference) return { ...one, reading: readingAgainst(one, reference) };
    const reason = failed
      ? `the reference: ${failed.failed.error.message.replace(/\.$/, '')}`
      : 'the reference does not show this window';
    return { ...one, reading: readingWithout(one, reason) };
  });
}
