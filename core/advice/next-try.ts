import { uvDistance } from '../colour/steps';
import { AppError } from '../base/errors';
import type { Triple } from '../colour/matrix3';
import { asShares, colourOfMix, mixOf, type Mix } from './mix';
import { nextOfThree, type SeenTry, type SheetLamp } from './three-lamps';
import type { ToldGlow } from './tried-distance';

/** How far a correction goes when the currents of the try were not told: the power of the ratio. */
const damping = 0.7;
/** A lamp with less of the measured colour than this cannot be told from one without: the colour is no mix of them. */
const leastShare = 0.02;
/** As far as lots of lamps and cameras move the colour of three, u'v': 20 steps. Further away, something else was lit. */
const farthestUv = 0.022;
/** Nearer than this, in u'v', or with every ratio within 3 %, resistors of 1 to 5 % cannot better it. */
const nearEnoughUv = 0.0022;
const leastChange = 1.03;

/** A change of currents by less than this, ln, says nothing of what changes do: resistors of 5 % do as much. */
const leastMovedLn = Math.log(1.1);
/** What the photo shows of a change, over what the data sheets say that it is; outside, something else has changed too. */
const gainBounds = [0.25, 2] as const;

/**
 * Of a change of the ratio, ln, so much is shown by photos that cut colours short: 0.5 to 0.75 in rendered tries. A step that is too long
 * by this is made good by the next, which knows both tries.
 */
const shownOfCutShort = 0.7;
/** Of a distance at worst: what is left in the photo counts twice before a try is called near enough. */
const leastShownOfCutShort = 0.5;

/** The try before the measured one. */
export interface EarlierTry {
  readonly glow: ToldGlow;
  /** Each current of the measured try over that of this one. */
  readonly currentRatios: readonly number[];
}

/** What a measured try says of the next one. */
export interface Correction {
  /** For each lamp's current; 1 for a lamp that the target does not need. Only their ratios count. */
  readonly factors: readonly number[];
  /** The try is as near as resistors can bring it. */
  readonly isEnough: boolean;
  /** The try before it counts too. */
  readonly isOfBoth: boolean;
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, one, i) => sum + one * b[i], 0);

/** ln of each over the first of those that count. */
function logRatios(values: readonly number[], counts: readonly boolean[]): number[] {
  const used = values.filter((_, i) => counts[i]);
  return used.map((value) => Math.log(value / used[0]));
}

/** Log ratios back to one factor a lamp; 1 for those that do not count. */
function factorsOf(logs: readonly number[], first: number, counts: readonly boolean[]): number[] {
  const used = logs.values();
  return counts.map((isUsed) => (isUsed ? first * Math.exp(used.next().value!) : 1));
}

/** A change from one try to the next, log ratios. */
interface Change {
  /** Of the currents. */
  readonly moved: readonly number[];
  /** Of the light, by the photos. */
  readonly shown: readonly number[];
}

/** null: the earlier photo does not show every lamp. */
function changeOf(
  { glow, currentRatios }: EarlierTry,
  found: Mix,
  colours: readonly Triple[],
  counts: readonly boolean[],
): Change | null {
  const before = mixOf(colours, glow).luminanceShares;
  if (before.some((share, i) => counts[i] && share < leastShare)) return null;
  const ratios = found.luminanceShares.map((share, i) => share / before[i]);
  return { moved: logRatios(currentRatios, counts), shown: logRatios(ratios, counts) };
}

/**
 * What has to be changed so that the photo shows the change asked for, as it showed the change before; log ratios.
 *
 * @returns null where the change before tells nothing
 * @source the secant
 */
function asShownBefore(asked: readonly number[], before: Change | null): readonly number[] | null {
  if (before === null) return null;
  const { moved, shown } = before;
  const gain = dot(moved, shown) / dot(moved, moved);
  const [least, most] = gainBounds;
  if (Math.sqrt(dot(moved, moved)) < leastMovedLn || gain < least || gain > most) return null;
  const along = dot(moved, asked) / dot(moved, shown);
  return asked.map((one, i) => one + (moved[i] - shown[i]) * along);
}

/** A measured try and the lamps that it was made of. */
export interface TriedMix {
  readonly lamps: readonly SheetLamp[];
  /** The glow by a photo like that of the target. */
  readonly measured: ToldGlow;
  /** Shares of the luminance by the currents that flowed and the data sheets; null: currents not told. */
  readonly ran: readonly number[] | null;
  /** Counts only where the currents are known. */
  readonly earlier: EarlierTry | null;
}

/** Of three lamps whose currents are known: light and colours of all are estimated together. */
function correctionOfThree(
  { reached }: Mix,
  { lamps, measured, earlier }: TriedMix,
  ran: readonly number[],
): Correction {
  const seen = (glow: ToldGlow, shares: readonly number[]): SeenTry => {
    return { ran: shares, glow, isCutShort: glow.isCutShort ?? false };
  };
  const before = earlier && seen(earlier.glow, asShares(ran.map((share, i) => share / earlier.currentRatios[i])));
  const next = nextOfThree(lamps, reached, [...(before ? [before] : []), seen(measured, ran)]);
  return {
    factors: next.map((share, i) => share / ran[i]),
    isEnough: uvDistance(measured, reached) <= nearEnoughUv * (measured.isCutShort ? leastShownOfCutShort : 1),
    isOfBoth: before !== null,
  };
}

/**
 * The correction after a measured try: each current times (share wanted / share measured), to the power 0.7 when the currents of the
 * try were not told. With the try before it, whose photo shows what such a change does in this camera: what that says. Three lamps make
 * nearly the same colour in many ratios, so that ratios read from a photo say little: see `nextOfThree`.
 *
 * It is enough when the try differs from the nearest mix by 2 steps or less, or when no ratio changes by 3 %, whichever asks for more.
 *
 * @param isTargetCutShort  the target's file cannot hold its colour, nor those of the tries theirs
 * @returns a refusal MEASURED_OUTSIDE when the measured colour is none that these lamps mix
 * @source weights of a mix in u'v'; damping and bounds our own choice, from tries that were rendered: damped ones needed a fourth. Cameras
 * show changes of LEDs' colours too small (colours outside the file's gamut): without the try before, a far first try needed a fourth
 * @rule LA14
 */
export function correctionOf(wanted: Mix, tried: TriedMix, isTargetCutShort = false): Correction | AppError {
  const { lamps, measured, ran, earlier } = tried;
  const colours = lamps.map(({ colour }) => colour);
  const found = mixOf(colours, measured);
  const shares = wanted.luminanceShares;
  const isOfThree = colours.length === 3 && ran !== null && shares.every((share) => share > 0);
  const isAsSheetsSay = isOfThree && uvDistance(colourOfMix(ran, colours), measured) <= farthestUv;
  if (!isAsSheetsSay && shares.some((share, i) => share > 0 && found.luminanceShares[i] < leastShare)) {
    const remedy =
      'Measure the try with all its lamps on, with the camera settings of the target, or leave --measured out.';
    return new AppError('refusal', 'MEASURED_OUTSIDE', 'the measured colour is no mix of these lamps', remedy);
  }
  if (isOfThree) return correctionOfThree(wanted, tried, ran);
  const counts = shares.map((share) => share > 0);
  const ratios = shares.map((share, i) => share / found.luminanceShares[i]);
  const asked = logRatios(ratios, counts);
  const change = ran !== null && earlier !== null ? changeOf(earlier, found, colours, counts) : null;
  const ofBoth = asShownBefore(asked, change);
  const changes =
    ofBoth ?? asked.map((one) => one * (ran === null ? damping : isTargetCutShort ? 1 / shownOfCutShort : 1));
  const factors = factorsOf(changes, ratios[counts.indexOf(true)], counts);
  const shown = isTargetCutShort ? leastShownOfCutShort : 1;
  const isSmall = Math.max(...factors) / Math.min(...factors) < leastChange ** shown;
  const isEnough = isSmall && uvDistance(found.reached, wanted.reached) <= shown * nearEnoughUv;
  return { factors, isEnough, isOfBoth: ofBoth !== null };
}
