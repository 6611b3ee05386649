import { fitLeastSquares, independentMoves, type FitProblem } from '../base/least-squares';
import { uv1976FromXyz, xyFromUv1976, xyzFromXy, type Uv1976 } from '../colour/chromaticity';
import { applyMatrix, type Triple } from '../colour/matrix3';
import { srgbSpace } from '../colour/spaces';
import { asShares } from './mix';

/** A try of three lamps: what flowed and what the photo showed. */
export interface SeenTry {
  /** Shares of the luminance, by the currents and the data sheets; each above 0. */
  readonly ran: readonly number[];
  readonly glow: Uv1976;
  /** The file cannot hold the colour. */
  readonly isCutShort: boolean;
}

/** A lamp on its data sheet. */
export interface SheetLamp {
  readonly colour: Triple;
  /** Cameras and data sheets are nearer to the truth than with the narrow bands of coloured LEDs. */
  readonly isWhite: boolean;
}

/**
 * What is not known before a try, k = 1: how far a lamp looks from its sheet's colour, u'v', and its light, ln.
 * Cameras show warm and cool white 0.006 and 0.01 off, narrow amber 0.04; lots differ by a fifth and more.
 */
const whiteDoubtUv = 0.01;
const colouredDoubtUv = 0.045;
const lightDoubtLn = 0.2;
/** Of a photo, u'v': noise, and that light is not quite in step with current. */
const photoDoubtUv = 0.0008;
const cutShortDoubtUv = 0.001;
/** Of what stays open, so much is reckoned with. In loops that were worked through the whole was too timid; without any, steps went too far. */
const caution = 0.5;
/** Deviates beyond this say that something else has changed. */
const mostDeviates = 4;
/** No lamp is put out: shares stay within e^5 of each other. */
const mostLnShare = 5;

/** Lamps as the camera shows them. */
interface SeenLamp extends Uv1976 {
  /** Light over that of the sheet. */
  readonly gain: number;
}

/** Three unknowns a lamp: light, u', v', in units of their doubt. */
function seenLamps(lamps: readonly SheetLamp[], unknowns: ArrayLike<number>): SeenLamp[] {
  return lamps.map(({ colour, isWhite }, i) => {
    const { uPrime, vPrime } = uv1976FromXyz(colour);
    const doubt = isWhite ? whiteDoubtUv : colouredDoubtUv;
    return {
      gain: Math.exp(lightDoubtLn * unknowns[3 * i]),
      uPrime: uPrime + doubt * unknowns[3 * i + 1],
      // Every real colour lies above.
      vPrime: Math.max(0.05, vPrime + doubt * unknowns[3 * i + 2]),
    };
  });
}

/** In u'v' lights mix by their luminance over v'. @source CIE 015:2018, additive mixing */
function shownBy(lamps: readonly SeenLamp[], ran: readonly number[]): Uv1976 {
  const weights = asShares(lamps.map(({ gain, vPrime }, i) => (ran[i] * gain) / vPrime));
  const mean = (of: (lamp: SeenLamp) => number): number =>
    lamps.reduce((sum, lamp, i) => sum + weights[i] * of(lamp), 0);
  return { uPrime: mean(({ uPrime }) => uPrime), vPrime: mean(({ vPrime }) => vPrime) };
}

/** As a file in sRGB holds a colour: what would be below 0 is 0. */
function cutShort(glow: Uv1976): Uv1976 {
  const [r, g, b] = applyMatrix(srgbSpace.rgbFromXyz, xyzFromXy(xyFromUv1976(glow)));
  return uv1976FromXyz(applyMatrix(srgbSpace.xyzFromRgb, [Math.max(0, r), Math.max(0, g), Math.max(0, b)]));
}

const apart = (a: Uv1976, b: Uv1976, unit: number): readonly [number, number] => [
  (a.uPrime - b.uPrime) / unit,
  (a.vPrime - b.vPrime) / unit,
];

/** The likeliest lamps after the tries, and others that are as likely as one standard deviation is. */
function likelyLamps(lamps: readonly SheetLamp[], tries: readonly SeenTry[]): SeenLamp[][] {
  const count = 3 * lamps.length;
  const problem: FitProblem = {
    residualsOf: (unknowns) => {
      const seen = seenLamps(lamps, unknowns);
      const beside = tries.flatMap(({ ran, glow, isCutShort }) => {
        const shown = shownBy(seen, ran);
        return isCutShort ? apart(cutShort(shown), glow, cutShortDoubtUv) : apart(shown, glow, photoDoubtUv);
      });
      return Float64Array.from([...unknowns, ...beside]);
    },
    lower: new Float64Array(count).fill(-mostDeviates),
    upper: new Float64Array(count).fill(mostDeviates),
  };
  const { parameters, normal } = fitLeastSquares(problem, new Float64Array(count));
  const moves = independentMoves(normal, count, caution * Math.sqrt(count));
  return moves.flatMap((move) =>
    [1, -1].map((way) =>
      seenLamps(
        lamps,
        parameters.map((value, i) => value + way * move[i]),
      ),
    ),
  );
}

/**
 * The next mix of three lamps after tries of them: the lamps' light and colours as the camera shows them are estimated from data sheets
 * and tries, each by its doubt; then the mix that comes nearest to the target for all that stays likely, so that a step goes no further
 * than what is known carries.
 *
 * @param target  as the same camera shows it
 * @param tries   the last one last, at least one
 * @returns shares of the luminance by the data sheets, sum 1, each above 0
 * @source Bayesian estimate with normal doubts, by least squares; mean over a cubature of 2n points (Arasaratnam & Haykin 2009, from
 * memory); doubts: see above, our own choice
 * @rule LA20
 */
export function nextOfThree(lamps: readonly SheetLamp[], target: Uv1976, tries: readonly SeenTry[]): number[] {
  const likely = likelyLamps(lamps, tries);
  const sharesOf = (logs: ArrayLike<number>): number[] => asShares([1, ...Array.from(logs, Math.exp)]);
  const { ran } = tries[tries.length - 1];
  const others = ran.length - 1;
  const { parameters } = fitLeastSquares(
    {
      residualsOf: (logs) => {
        const shares = sharesOf(logs);
        return Float64Array.from(likely.flatMap((seen) => apart(shownBy(seen, shares), target, photoDoubtUv)));
      },
      lower: new Float64Array(others).fill(-mostLnShare),
      upper: new Float64Array(others).fill(mostLnShare),
    },
    Float64Array.from(ran.slice(1), (share) => Math.log(share / ran[0])),
  );
  return sharesOf(parameters);
}
