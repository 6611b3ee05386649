/**
 * A measured number with its plus-minus (k = 2, same unit).
 * `plusMinus` is null exactly when `value` is null, and then `reason` says why.
 */
export interface Figure {
  readonly value: number | null;
  readonly plusMinus: number | null;
  readonly reason?: string;
}

/** A figure with both numbers. Throws a defect when either is not finite: such a figure must be `missing`. */
export function figure(value: number, plusMinus: number): Figure {
  if (!Number.isFinite(value) || !Number.isFinite(plusMinus) || plusMinus < 0) {
    throw new RangeError(`not a figure: ${value} +- ${plusMinus}`);
  }
  return { value, plusMinus };
}

/** Why a figure that compares with the filament is missing when no photo of it was named. */
export const noReference = 'no photo of the filament lamp was named to compare with';

/** A figure that cannot be given, and why, in plain words that end without a full stop. */
export function missing(reason: string): Figure {
  return { value: null, plusMinus: null, reason };
}
