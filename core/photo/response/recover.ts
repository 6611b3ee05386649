import type { Curve } from '../code-light';
import { curveOfPolynomial, linearResponse, type CameraResponse } from './camera-response';
import { leftOutErrors, medianError } from './left-out';
import { judgeLinear } from './linear-verdict';
import { apartFromLogResponse } from './log-response';
import { fitPolynomial, isMonotone, type ResponsePolynomial } from './polynomial';
import { sampleChannel, type BracketFrame, type ChannelSamples } from './samples';

const channelNames = ['red', 'green', 'blue'] as const;
export type ChannelName = (typeof channelNames)[number];

/** What an exposure series tells of its camera, and how well. Errors are medians, in ln units: 0.05 is 5 % of light. */
export interface RecoveredResponse {
  readonly response: CameraResponse;
  /** On exposures left out of the fit. */
  readonly leftOutError: number;
  /** The same, for the curve that the file names (sRGB without a profile). */
  readonly plainError: number;
  /** Between this curve and one recovered by another method; null when that gives none. */
  readonly apartFromLogResponse: number | null;
  /** Channels whose photos hold too little to tell: they take the curve of the channel that is told best. */
  readonly borrowing: readonly ChannelName[];
}

/** Recovered, or why not: a clause for a sentence, without a full stop. */
export type Recovery = RecoveredResponse | { readonly refused: string };

/** A curve is told where its photos have codes: it must reach from here to there. @source our own choice */
const mustReach = [60 / 255, 200 / 255] as const;
/** So many samples must lie beyond either. */
const mustReachSamples = 60;
/** Photos that fit no curve better than this differ in something else than exposure. @source our own choice */
const worstError = 0.1;
/** Degree 4 must tell a left-out photo so much better than degree 3. @source our own choice */
const fourBetterBy = 0.95;

interface ChannelCurve {
  readonly polynomial: ResponsePolynomial;
  readonly errors: readonly number[];
  readonly plainErrors: readonly number[];
}

function reaches({ codes }: ChannelSamples): boolean {
  let [dim, bright] = [0, 0];
  for (const frame of codes) {
    for (const code of frame) {
      if (code > 5 / 255 && code <= mustReach[0]) dim += 1;
      if (code >= mustReach[1] && code < 250 / 255) bright += 1;
    }
  }
  return dim >= mustReachSamples && bright >= mustReachSamples;
}

function fitDegree(
  samples: ChannelSamples,
  degree: 3 | 4,
): { polynomial: ResponsePolynomial; errors: number[] } | null {
  const polynomial = fitPolynomial(samples, degree);
  if (!polynomial || !isMonotone(polynomial)) return null;
  const errors = leftOutErrors(samples, (others) => {
    const fitted = fitPolynomial(others, degree);
    return fitted && curveOfPolynomial(fitted);
  });
  return errors.length === 0 ? null : { polynomial, errors };
}

/** Degree 3; degree 4 where it is monotone and tells a left-out photo better. */
function fitChannel(samples: ChannelSamples, plain: Curve): ChannelCurve | null {
  const [cubic, quartic] = [fitDegree(samples, 3), fitDegree(samples, 4)];
  const better =
    cubic && quartic && medianError(quartic.errors)! < fourBetterBy * medianError(cubic.errors)! ? quartic : cubic;
  const chosen = better ?? quartic;
  return chosen && { ...chosen, plainErrors: leftOutErrors(samples, () => plain) };
}

function refuseCurves(told: readonly (ChannelSamples | null)[]): Recovery {
  if (told.every((samples) => samples === null)) {
    return { refused: 'no channel has codes from dim (60 of 255) to bright (200) in places without edges' };
  }
  return { refused: 'no tone curve that rises from dark to bright fits the photos' };
}

function linearRecovery(told: readonly (ChannelSamples | null)[], plain: readonly Curve[]): RecoveredResponse | null {
  const known = told.flatMap((samples, i) => (samples ? [{ samples, plain: plain[i] }] : []));
  const isLinear = known.length > 0 && known.every(({ samples }) => judgeLinear(samples)?.isLinear);
  if (!isLinear) return null;
  const errorOf = (curve: (at: number) => Curve): number | null =>
    medianError(known.flatMap(({ samples }, i) => leftOutErrors(samples, () => curve(i))));
  const leftOutError = errorOf(() => (code) => code);
  if (leftOutError === null) return null;
  return {
    response: linearResponse,
    leftOutError,
    plainError: errorOf((i) => known[i].plain)!,
    apartFromLogResponse: null,
    borrowing: channelNames.filter((_, i) => told[i] === null),
  };
}

/**
 * The tone curves of a camera from an exposure series of one scene.
 *
 * A channel is told when its flat places have codes from dim to bright; another takes the curve of the one whose left-out photos are
 * told best, as cameras bend their channels alike. Codes that are light already are recognised first. Judged by photos left
 * out of the fit, beside the curve that the file names.
 *
 * @param frames  three or more, registered, only their exposure differs; not altered
 * @param widthPx of their region
 * @param plain   the curves that the file names
 * @returns refused when no channel is told, no rising curve fits, or a left-out photo is missed by 10 % or more in the median
 * @source Mitsunaga & Nayar 1999; Debevec & Malik 1997 as cross-check; which channels count and the limits: our own choice
 * @rule BR2, BR3, BR4, BR5
 */
export function recoverResponse(
  frames: readonly BracketFrame[],
  widthPx: number,
  plain: readonly [Curve, Curve, Curve],
): Recovery {
  const told = ([0, 1, 2] as const).map((channel) => {
    const samples = sampleChannel(frames, channel, widthPx);
    return reaches(samples) ? samples : null;
  });
  const linear = linearRecovery(told, plain);
  if (linear) return linear;
  const curves = told.map((samples, i) => samples && fitChannel(samples, plain[i]));
  const fitted = curves.filter((curve) => curve !== null);
  const misfit = told.some((samples, i) => samples && !curves[i]);
  if (fitted.length === 0 || misfit) return refuseCurves(told);
  const best = fitted.reduce((a, b) => (medianError(b.errors)! < medianError(a.errors)! ? b : a));
  const [red, green, blue] = curves.map((curve) => (curve ?? best).polynomial);
  const leftOutError = medianError(fitted.flatMap(({ errors }) => errors))!;
  if (leftOutError >= worstError) {
    const percent = Math.round(100 * leftOutError);
    return { refused: `a photo left out of the fit is told by the others only to ${percent} % in the median` };
  }
  const apart = told.flatMap((samples, i) => {
    const value = samples && apartFromLogResponse(curves[i]!.polynomial, samples);
    return value === null ? [] : [value];
  });
  return {
    response: { red, green, blue, isLinear: false },
    leftOutError,
    plainError: medianError(fitted.flatMap(({ plainErrors }) => plainErrors))!,
    apartFromLogResponse: apart.length === 0 ? null : Math.max(...apart),
    borrowing: channelNames.filter((_, i) => curves[i] === null),
  };
}
