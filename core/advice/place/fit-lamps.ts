import { blurGaussian } from '../../base/gaussian';
import { meanOf, populationDeviationOf } from '../../base/stats';
import type { ErrorEntry } from '../../contract/readings';
import type { MeasuredMap } from '../measured-map';
import { modelLight, type LampModel, type ModelLamp } from './lamp-model';
import { fitLeastSquares, independentMoves, type Fitted } from '../../base/least-squares';

/** x, y, ln depth, ln lobe, two slopes, ln strength. */
const perLamp = 7;

export interface LampFit {
  readonly model: LampModel;
  /** Of ln light over the glow, 0..1. */
  readonly rms: number;
  /** Share of the spread of ln light that the model explains. */
  readonly explained: number;
  /** Standard uncertainty of each lamp: place in mm, depth in ln. */
  readonly uncertainties: readonly { readonly xMm: number; readonly yMm: number; readonly lnDepth: number }[];
  /** Models a standard deviation away, along independent directions. */
  readonly neighbours: readonly LampModel[];
  readonly isAtBound: boolean;
}

function modelOf(p: Float64Array): LampModel {
  const lamps: ModelLamp[] = [];
  for (let at = 0; at < p.length - 1; at += perLamp) {
    const [xMm, yMm, lnDepth, lnLobe, right, down, lnStrength] = p.subarray(at, at + perLamp);
    lamps.push({ xMm, yMm, depthMm: Math.exp(lnDepth), lobe: Math.exp(lnLobe), slopes: [right, down], strength: Math.exp(lnStrength) }); // prettier-ignore
  }
  return { lamps, boxLight: Math.exp(p[p.length - 1]) };
}

interface Sampled {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** ln light, mean 0. */
  readonly logs: Float64Array;
}

/** Cells about 1.5 mm apart, at most some hundred. */
function sampleGlow({ light, glow, pxPerMm, widthMm, heightMm }: MeasuredMap): Sampled {
  const smooth = blurGaussian(light, 0.5 * pxPerMm).values;
  const step = Math.max(1, Math.round(pxPerMm * Math.max(1.5, Math.sqrt((widthMm * heightMm) / 400))));
  const cells: number[] = [];
  for (let row = step >> 1; row < light.height; row += step)
    for (let column = step >> 1; column < light.width; column += step)
      if (glow.values[row * light.width + column]) cells.push(row * light.width + column);
  const logs = Float64Array.from(cells, (i) => Math.log(smooth[i]));
  const mean = meanOf(logs);
  return {
    x: Float64Array.from(cells, (i) => ((i % light.width) + 0.5) / pxPerMm),
    y: Float64Array.from(cells, (i) => (Math.floor(i / light.width) + 0.5) / pxPerMm),
    logs: logs.map((value) => value - mean),
  };
}

const repeated = (count: number, lamp: readonly number[], box: number): Float64Array =>
  Float64Array.from([...Array.from({ length: count }, () => lamp).flat(), box]);

/** Usual lamps, from which the fit is not to stray without need. */
const usual = { lobe: 1.5, depthMm: 12, slope: 0.6 } as const;

function startsFor(lamps: number, { widthMm, heightMm }: MeasuredMap): Float64Array[] {
  const places: readonly (readonly number[])[] = lamps === 1 ? [[0.2], [0.5], [0.8]] : [[0.2, 0.7], [0.3, 0.8]]; // prettier-ignore
  return places.flatMap((across) =>
    [0.5, 1.1].flatMap((down) =>
      [5, 12, 25].map((depth) =>
        Float64Array.from([
          ...across.flatMap((x) => [x * widthMm, down * heightMm, Math.log(depth), Math.log(usual.lobe), 0, 0, 0]),
          -1.5,
        ]),
      ),
    ),
  );
}

/** Neighbouring cells err alike: so many of them count as one. */
const alikeCells = 8;

/**
 * The lamps behind a window, by least squares of ln light from a grid of starts, with weak ties to usual lamps.
 *
 * @param lamps 1 or 2
 * @source own model; ties and starts: our own choice
 * @rule PL2
 */
export function fitLamps(map: MeasuredMap, lamps: 1 | 2): LampFit {
  const { widthMm, heightMm } = map;
  const { x, y, logs } = sampleGlow(map);
  const tie = 0.03 * Math.sqrt(logs.length / 50);
  const residualsOf = (p: Float64Array): Float64Array => {
    const model = modelOf(p);
    const fit = logs.map((value, i) => Math.log(modelLight(model, x[i], y[i])) - value);
    const ties = model.lamps.flatMap(({ lobe, depthMm, slopes }) => [
      tie * Math.log(lobe / usual.lobe),
      (tie * slopes[0]) / usual.slope,
      (tie * slopes[1]) / usual.slope,
      (tie * Math.log(depthMm / usual.depthMm)) / 1.2,
    ]);
    return Float64Array.from([...fit, ...ties]);
  };
  const lower = repeated(lamps, [-widthMm / 2, -heightMm, Math.log(1.5), Math.log(0.5), -2.5, -2.5, -6], -8);
  const upper = repeated(lamps, [1.5 * widthMm, 2 * heightMm, Math.log(60), Math.log(60), 2.5, 2.5, 8], 3);
  const fits = startsFor(lamps, map).map((start) => fitLeastSquares({ residualsOf, lower, upper }, start));
  const best = fits.reduce((a: Fitted, b) => (b.cost < a.cost ? b : a));
  const rms = populationDeviationOf(residualsOf(best.parameters).subarray(0, logs.length));
  const scale = Math.max(rms, 0.01) * Math.sqrt(alikeCells);
  const moves = independentMoves(best.normal, best.parameters.length, scale);
  const deviation = (k: number): number => Math.sqrt(moves.reduce((sum, move) => sum + move[k] * move[k], 0));
  return {
    model: modelOf(best.parameters),
    rms,
    explained: 1 - rms / populationDeviationOf(logs),
    uncertainties: Array.from({ length: lamps }, (_, lamp) => ({
      xMm: deviation(perLamp * lamp),
      yMm: deviation(perLamp * lamp + 1),
      lnDepth: deviation(perLamp * lamp + 2),
    })),
    neighbours: moves.map((move) =>
      modelOf(best.parameters.map((value, k) => Math.min(upper[k], Math.max(lower[k], value + move[k])))),
    ),
    // Strengths and box light may run out of bounds without harm: a box without light of its own.
    isAtBound: best.parameters.some(
      (value, k) =>
        k < best.parameters.length - 1 && k % perLamp < 6 && (value - lower[k] < 1e-6 || upper[k] - value < 1e-6),
    ),
  };
}

const remedy = 'Photograph each lamp lit alone and use --single-lamp, or move the lamp and measure again.';

/** Why a fit cannot carry a forecast; null when it can. @source our own experiments: two lamps under a model of one leave 43 % @rule PL3 */
export function whyNoFit({ rms, explained, uncertainties, isAtBound }: LampFit): ErrorEntry | null {
  const refuse = (code: string, message: string): ErrorEntry => ({ code, message, remedy });
  const perCent = (share: number): string => `${(100 * share).toFixed(0)} %`;
  if (!(explained >= 0.5)) return refuse('LAMPS_NOT_SEEN', `the model explains ${perCent(Math.max(0, explained))} of the contrast: the light does not show where the lamps are`); // prettier-ignore
  if (rms > 0.08) return refuse('LAMPS_NOT_LIKE_MODEL', `the model misses the light by ${perCent(rms)}: more lamps, a wall or a shadow`); // prettier-ignore
  if (isAtBound) return refuse('LAMPS_AT_BOUND', 'the lamps come out at the limit of what is possible');
  const widest = Math.max(...uncertainties.map(({ xMm, yMm }) => Math.max(xMm, yMm)));
  if (widest > 3) return refuse('LAMPS_UNSURE', `their place is only known to ${widest.toFixed(0)} mm`);
  if (uncertainties.some(({ lnDepth }) => lnDepth > 0.5)) return refuse('LAMPS_UNSURE', 'their depth is not known to a factor of 1.6'); // prettier-ignore
  return null;
}

/** A fit, or why there is none. */
export type FitOutcome = { readonly fit: LampFit } | { readonly refusal: ErrorEntry };

/** More lamps than this are not told apart in one photo. */
const mostSpots = 3;

/**
 * The lamps of a map: one, or two where one does not do.
 *
 * @param hotSpots how many the reading found
 * @source our own choice
 * @rule PL3
 */
export function findLamps(map: MeasuredMap, hotSpots: number): FitOutcome {
  if (hotSpots > mostSpots) {
    return {
      refusal: { code: 'LAMPS_TOO_MANY', message: `${hotSpots} hot spots: too many lamps for one photo`, remedy },
    };
  }
  const one = fitLamps(map, 1);
  const whyNotOne = whyNoFit(one);
  if (whyNotOne === null) return { fit: one };
  if (whyNotOne.code === 'LAMPS_NOT_SEEN' && hotSpots < 2) return { refusal: whyNotOne };
  const two = fitLamps(map, 2);
  const refusal = whyNoFit(two);
  return refusal === null ? { fit: two } : { refusal };
}
