/** One score, index or distance with its standard uncertainty (k = 1), in the same unit. */
export interface Measured {
  readonly value: number;
  readonly uncertainty: number;
}

/** The difference of two of them. */
export interface Difference {
  /** b - a. */
  readonly difference: number;
  /** Standard uncertainty of the difference (k = 1). */
  readonly uncertainty: number;
  readonly toldApart: boolean;
}

/** Errors shared by two photos of one camera at equal exposure, white balance, style and framing. @source our own choice */
export const sharedErrorOfLikePhotos = 0.8;

/** Differences smaller than this are not worth telling apart, whatever their uncertainty: points of the score. */
export const leastScoreDifference = 2;
/** Points of the red-print index. */
export const leastIndexDifference = 8;
/** Distance in u'v': two steps. */
export const leastUvDifference = 0.0022;

/**
 * Standard uncertainty of a difference: root(u1^2 + u2^2 - 2 rho u1 u2).
 *
 * @param rho  0..1, share of error that both have in common
 * @source JCGM 100 (GUM) 5.2.2
 * @rule PR1
 */
export function differenceUncertainty(uncertaintyA: number, uncertaintyB: number, rho: number): number {
  const square = uncertaintyA ** 2 + uncertaintyB ** 2 - 2 * rho * uncertaintyA * uncertaintyB;
  return Math.sqrt(Math.max(0, square));
}

/**
 * Whether two measured values can be told apart: |b - a| above 2 u_d and at least the least difference that matters.
 *
 * @param rho    0..1; `sharedErrorOfLikePhotos` when camera, exposure (1/3 EV), white balance, style and framing agree, else 0
 * @param least  `leastScoreDifference`, `leastIndexDifference`, or another in the values' unit
 * @source JCGM 100 (GUM) for the uncertainty; the least differences are our own choice
 * @rule PR1
 */
export function tellApart(a: Measured, b: Measured, rho: number, least: number): Difference {
  const difference = b.value - a.value;
  const uncertainty = differenceUncertainty(a.uncertainty, b.uncertainty, rho);
  const size = Math.abs(difference);
  return { difference, uncertainty, toldApart: size > 2 * uncertainty && size >= least };
}
