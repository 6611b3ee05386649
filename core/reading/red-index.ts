import type { RoomKind } from '../contract/light';
import { figure, type Figure } from '../contract/figure';
import { coverageFactor } from './uncertainty';

/**
 * Redness that red print has behind a filament lamp: 0.12 to 0.17 over eight kinds of print and scale. The standard uncertainty
 * is wide enough for print of 0.12 to keep its 100 % inside k = 2.
 */
export const typicalRedness = { value: 0.15, uncertainty: 0.01875 } as const;

/** Redness that print shows under other light which nobody noticed: 5 % of the lamp's light, once in twenty times. */
export const overlookedRoom: Readonly<Record<RoomKind, number>> = {
  dark: (0.17 * 0.05) / coverageFactor,
  unknown: 0,
  lit: 0,
};

/**
 * The red-print index without a filament photo: redness in per cent of what red print usually has behind a filament lamp.
 *
 * Its plus-minus holds that of the redness, what different print has (0.12 to 0.17), and, without a lamp-off photo, 5 % of room
 * light that was overlooked.
 *
 * @param redness      value and standard uncertainty
 * @param isRoomKnown  a lamp-off photo was subtracted
 * @returns per cent, 0 or more, k = 2
 * @source our own simulation of eight kinds of print and scale; room light on the index: our own rendered photos
 * @rule RP10
 */
export function typicalIndex(
  redness: { readonly value: number; readonly uncertainty: number },
  room: RoomKind,
  isRoomKnown: boolean,
): Figure {
  const ratio = Math.max(0, redness.value) / typicalRedness.value;
  const own = redness.uncertainty / typicalRedness.value;
  const typical = (ratio * typicalRedness.uncertainty) / typicalRedness.value;
  const overlooked = isRoomKnown ? 0 : overlookedRoom[room] / typicalRedness.value;
  return figure(100 * ratio, 100 * coverageFactor * Math.hypot(own, typical, overlooked));
}

/**
 * The red-print index in words.
 *
 * @param index  per cent of the filament's, the reference's or a typical one's
 * @source our own choice: bands between the lamp families of our own simulation
 * @rule RP11
 */
export function redIndexWords(index: number, against: 'reference' | 'typical'): string {
  const filament = against === 'reference' ? 'the filament' : 'a usual filament lamp';
  if (index > 125) return `redder than with ${filament}`;
  if (index >= 75) return `as red as with ${filament}`;
  if (index >= 45) return `red, a bit duller than with ${filament}`;
  return index >= 20 ? 'barely red' : 'red lost';
}
