import type { ErrorKind } from '../../base/errors';
import type { MeasureResult } from '../../contract/measure';

/** What the command line returns for each kind of expected error. */
export const exitCodeOf: Readonly<Record<ErrorKind, number>> = {
  usage: 2,
  photo: 3,
  outline: 4,
  refusal: 5,
  book: 6,
  cancelled: 130,
};

/** The code of a whole run: 1, a defect of ours, wins over all; else the highest. @rule CL4 */
export function worstExitCode(codes: readonly number[]): number {
  return codes.includes(1) ? 1 : Math.max(0, ...codes);
}

/**
 * The exit code of a measurement: 3 and 4 by the photos that failed, 5 with `strict` when any gate refuses, else 0.
 *
 * @rule CL4
 */
export function exitCodeOfResult(result: MeasureResult, strict: boolean): number {
  return worstExitCode(
    result.windows.map((entry) => {
      if ('failed' in entry) return exitCodeOf[entry.kind];
      return strict && entry.reading.gates.some((gate) => gate.level === 'refuse') ? exitCodeOf.refusal : 0;
    }),
  );
}
