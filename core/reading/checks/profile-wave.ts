import { cosDeg, sinDeg } from '../../colour/deterministic-angle';

/** Light along a line of places, each the mean of what was seen there. */
export interface LightProfile {
  /** ln units around 0. */
  readonly means: Float64Array;
  /** 0 where nothing was seen, else what the place counts. */
  readonly weights: Float64Array;
}

/** amplitude cosine x cos(angle) + sine x sin(angle), the angle 0 at the start of the line. */
export interface ProfileWave {
  readonly cosine: number;
  readonly sine: number;
}

/** Half of a wave's height from trough to crest. */
export function waveSize({ cosine, sine }: ProfileWave): number {
  return Math.hypot(cosine, sine);
}

/**
 * The profile with weights that fall to 0 at both ends as a raised cosine, so that waves two cycles apart do not leak
 * into one another.
 *
 * @param sums, counts  of the light at each place; not altered
 * @source Hann window: common practice
 * @rule CK2
 */
export function taperedProfile(sums: Float64Array, counts: Float64Array): LightProfile {
  const { length } = sums;
  return {
    means: sums.map((sum, i) => (counts[i] > 0 ? sum / counts[i] : 0)),
    weights: counts.map((count, i) => (count > 0 ? 1 - cosDeg((360 * (i + 0.5)) / length) : 0)),
  };
}

/**
 * The wave of so many cycles that fits a profile best, by weighted least squares together with the mean: places that
 * nobody saw (print) do not bend it.
 *
 * @param cycles  over the whole profile, above 0
 * @returns zeros when too little was seen to tell
 * @source least squares; common practice for unevenly sampled waves
 * @rule CK2
 */
export function fitWave({ means, weights }: LightProfile, cycles: number): ProfileWave {
  let [n, c, s, cc, cs, ss, y, yc, ys] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < means.length; i++) {
    const weight = weights[i];
    if (weight === 0) continue;
    const angleDeg = (360 * cycles * (i + 0.5)) / means.length;
    const [cos, sin] = [cosDeg(angleDeg), sinDeg(angleDeg)];
    const light = weight * means[i];
    n += weight;
    c += weight * cos;
    s += weight * sin;
    cc += weight * cos * cos;
    cs += weight * cos * sin;
    ss += weight * sin * sin;
    y += light;
    yc += light * cos;
    ys += light * sin;
  }
  const [a, b, d] = [cc - (c * c) / n, cs - (c * s) / n, ss - (s * s) / n];
  const [u, v] = [yc - (y * c) / n, ys - (y * s) / n];
  const determinant = a * d - b * b;
  if (!(determinant > 1e-6 * n * n)) return { cosine: 0, sine: 0 };
  return { cosine: (u * d - v * b) / determinant, sine: (v * a - u * b) / determinant };
}

/** How much of a whole's wave a part shows, in the whole's phase: 1 when they agree. @source projection @rule CK2 */
export function waveShare(part: ProfileWave, whole: ProfileWave): number {
  return (part.cosine * whole.cosine + part.sine * whole.sine) / waveSize(whole) ** 2;
}
