import type { MeasuredTry } from '../../../core/advice/lamp-mix';
import type { ToldGlow } from '../../../core/advice/tried-distance';
import type { ErrorEntry } from '../../../core/contract/readings';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import { noTry, type MixText, type TryText } from '../../state/mix-form';
import { numberIn } from './number-in';

/** Above 0, as the command line takes them. */
const currentLimits = [0.001, 5000] as const;
export const currentHint = '0.001 to 5000 mA';
/** Every colour there is lies within. */
const uvLimits = [0, 0.65] as const;
export const uvHint = '0 to 0.65';

export const isUvWrong = (text: string): boolean => numberIn(text, uvLimits) === null;

/** A try as the form has it, and what is wrong in it. */
export interface ReadTry {
  /** null: there is none, or something is wrong. */
  readonly glow: ToldGlow | null;
  /** null: not told. */
  readonly currentsMa: readonly number[] | null;
  /** Of each string. */
  readonly areCurrentsWrong: readonly boolean[];
  /** Its photo has no colour, for the reason. */
  readonly refusal: ErrorEntry | null;
  readonly isWhole: boolean;
}

export const photoOfTry = ({ by }: TryText, photos: readonly MeasuredPhotoOnBench[]): MeasuredPhotoOnBench | null =>
  typeof by === 'string' ? null : (photos.find(({ id }) => id === by.photo) ?? null);

/** What a photo tells of its glow's colour, or why it does not. */
export function glowOf({ name, reading }: Pick<MeasuredPhotoOnBench, 'name' | 'reading'>): ToldGlow | ErrorEntry {
  const { uPrime, vPrime, outOfGamut: isCutShort } = reading.colour;
  if (uPrime.value === null || vPrime.value === null) {
    const message = `${name} has no colour: ${uPrime.reason ?? 'no reason given'}`;
    const remedy = 'Take the photo again as its photo checks say, or choose another.';
    return { code: 'READING_WITHOUT_COLOUR', message, remedy };
  }
  const plusMinus = { uPrime: uPrime.plusMinus!, vPrime: vPrime.plusMinus! };
  return { uPrime: uPrime.value, vPrime: vPrime.value, plusMinus, isCutShort };
}

function toldGlow(told: TryText, photos: readonly MeasuredPhotoOnBench[]): ToldGlow | ErrorEntry | null {
  if (told.by === 'none') return null;
  if (told.by === 'typed') {
    const [uPrime, vPrime] = [numberIn(told.uPrime, uvLimits), numberIn(told.vPrime, uvLimits)];
    return uPrime === null || vPrime === null ? null : { uPrime, vPrime };
  }
  const photo = photoOfTry(told, photos);
  return photo && glowOf(photo);
}

/** @param needsCurrents  they may not be left out @rule SC37 */
export function readTry(
  told: TryText,
  lamps: number,
  photos: readonly MeasuredPhotoOnBench[],
  needsCurrents: boolean,
): ReadTry {
  const texts = Array.from({ length: lamps }, (_, i) => told.currents[i] ?? '');
  const isTold = texts.some((text) => text.trim() !== '');
  const currents = texts.map((text) => numberIn(text, currentLimits));
  const areCurrentsWrong = currents.map((mA) => (isTold || needsCurrents) && mA === null);
  const glow = toldGlow(told, photos);
  const refusal = glow !== null && 'code' in glow ? glow : null;
  return {
    glow: glow !== null && 'code' in glow ? null : glow,
    currentsMa: isTold && !areCurrentsWrong.includes(true) ? currents.map((mA) => mA!) : null,
    areCurrentsWrong,
    refusal,
    isWhole: told.by === 'none' || (glow !== null && refusal === null && !areCurrentsWrong.includes(true)),
  };
}

/** Both tries of a form as they stand: as a person told them, else as the planned trials tell. */
export interface ToldTries {
  readonly last: TryText;
  readonly before: TryText;
  /** The planned trials filled it in. */
  readonly isLastPlanned: boolean;
  readonly isBeforePlanned: boolean;
}

/** @param planned  see `mixedTries` @rule SC37 */
export function toldTries(
  { last, before }: Pick<MixText, 'last' | 'before'>,
  planned: readonly TryText[],
  photos: readonly MeasuredPhotoOnBench[],
): ToldTries {
  // What a person chose stands while its photo is there.
  const isStanding = (told: TryText | null): told is TryText =>
    told !== null && (typeof told.by === 'string' || photoOfTry(told, photos) !== null);
  const [newest = noTry] = planned;
  const shown = isStanding(last) ? last : newest;
  const photo = photoOfTry(shown, photos)?.id;
  const at = planned.findIndex((one) => photoOfTry(one, photos)?.id === photo);
  const earlier = shown.by === 'none' || at < 0 ? noTry : (planned[at + 1] ?? noTry);
  const isBeforeOwn = isStanding(before) && (photo === undefined || photoOfTry(before, photos)?.id !== photo);
  const shownBefore = shown.by === 'none' ? noTry : isBeforeOwn ? before : earlier;
  return {
    last: shown,
    before: shownBefore,
    isLastPlanned: !isStanding(last) && shown.by !== 'none',
    isBeforePlanned: !isBeforeOwn && shownBefore.by !== 'none',
  };
}

/** The tries as the advice takes them; null: none; undefined: something is wrong. */
export function measuredTry(last: ReadTry, before: ReadTry): MeasuredTry | null | undefined {
  if (!last.isWhole || !before.isWhole) return undefined;
  if (last.glow === null) return null;
  const { glow, currentsMa } = last;
  const earlier =
    before.glow !== null && before.currentsMa !== null ? { glow: before.glow, currentsMa: before.currentsMa } : null;
  return { glow, currentsMa, before: earlier };
}
