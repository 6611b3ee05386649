/** Set by `npm run test:long`: whole sets and big counts, for which `npm test` has no time. */
export const isLongRun = process.env['EVENDIAL_LONG'] === '1';

/** Milliseconds that whole sets may take: other work may share the machine. */
export const patienceMs = isLongRun ? 4 * 3_600_000 : 1_800_000;

/** Every `step`th of a set, from its first on; in the long run all of it. */
export function sampled<T>(all: readonly T[], step: number): T[] {
  return all.filter((_, i) => isLongRun || i % step === 0);
}
