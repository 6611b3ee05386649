import type { AskedMix } from '../../advice-messages';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import { usualFilamentK, type MixText, type TryText } from '../../state/mix-form';
import { ledOf, namesApart, supplyOf } from './led-form';
import { numberIn } from './number-in';
import { glowOf, measuredTry, readTry, toldTries, type ReadTry, type ToldTries } from './try-form';

const kelvinLimits = [1500, 6500] as const;
const currentLimits = [0.1, 5000] as const;

/** The photos of a window that a mix has to do with. */
export interface MixPhotos {
  /** By its filament lamps. */
  readonly reference: MeasuredPhotoOnBench | null;
  /** All others, newest first. */
  readonly tries: readonly MeasuredPhotoOnBench[];
}

/** The form of a mix as read: what it asks, and what is wrong. */
export interface ReadMix {
  /** null while something is wrong. */
  readonly asks: AskedMix | null;
  readonly told: ToldTries;
  readonly last: ReadTry;
  readonly before: ReadTry;
  /** The reference has a colour, which can be the target. */
  readonly hasTargetPhoto: boolean;
  /** The target is a filament lamp, not a photo. */
  readonly isTargetStated: boolean;
  readonly isKelvinWrong: boolean;
  readonly isCurrentWrong: boolean;
}

/**
 * @param planned  tries of planned mixes, see `mixedTries`
 * @rule SC21, SC37
 */
export function readMix(text: MixText, { reference, tries }: MixPhotos, planned: readonly TryText[]): ReadMix {
  const { leds, kelvin, current, isByReference, isDyed, series } = text;
  const shown = reference === null ? null : glowOf(reference);
  const photographed = shown !== null && 'uPrime' in shown ? shown : null;
  const targetGlow = isByReference ? photographed : null;
  // Beside a photo's glow the field is not shown: what is left in it cannot be in the way.
  const filamentK = numberIn(kelvin, kelvinLimits) ?? (targetGlow ? usualFilamentK : null);
  const currentMa = numberIn(current, currentLimits);
  const isCurrentWrong = current.trim() !== '' && currentMa === null;

  const told = toldTries(text, planned, tries);
  const areCurrentsNeeded = told.before.by !== 'none';
  const [last, before] = [told.last, told.before].map((one) => readTry(one, leds.length, tries, areCurrentsNeeded));

  const names = namesApart(leds);
  const known = leds.flatMap((led, i) => ledOf(led, names[i]) ?? []);
  const supply = supplyOf(text.supply);
  const measured = measuredTry(last, before);
  const isWhole = known.length === leds.length && !isCurrentWrong;
  const asks =
    isWhole && supply !== null && filamentK !== null && measured !== undefined
      ? { leds: known, supply, targetK: targetGlow ? null : filamentK, targetGlow, isDyed, currentMa, series, filamentK, measured } // prettier-ignore
      : null;
  return {
    asks,
    told,
    last,
    before,
    hasTargetPhoto: photographed !== null,
    isTargetStated: targetGlow === null,
    isKelvinWrong: filamentK === null,
    isCurrentWrong,
  };
}
