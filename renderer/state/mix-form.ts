import { signal } from '@preact/signals';
import type { PhotoId } from '../../core/contract/bench';
import { holdsTexts, isObject, keptList, type KeptStorage } from './kept-text';

/** A lamp's data sheet as typed. */
export interface LedText {
  readonly name: string;
  readonly dominantNm: string;
  readonly mcd: string;
  readonly angleDeg: string;
  readonly atMa: string;
  readonly forwardV: string;
  readonly maxMa: string;
}

/** What feeds the lamps, as typed. */
export interface SupplyText {
  readonly kind: 'dc' | 'ac';
  readonly volts: string;
  readonly voltsWithoutLamp: string;
  readonly hz: '50' | '60';
}

/** A try of a mix, as told. */
export interface TryText {
  /** Its photo on the bench, or how else its colour is told. */
  readonly by: { readonly photo: PhotoId } | 'typed' | 'none';
  readonly uPrime: string;
  readonly vPrime: string;
  /** Of each string, mA, in the order of the lamps. */
  readonly currents: readonly string[];
}

export const noTry: TryText = { by: 'none', uPrime: '', vPrime: '', currents: [] };

export const resistorSeries = ['E12', 'E24', 'E96'] as const;

/** Everything that a person put into the form of a mix. */
export interface MixText {
  /** Two or three. */
  readonly leds: readonly LedText[];
  readonly supply: SupplyText;
  readonly isByReference: boolean;
  readonly kelvin: string;
  readonly isDyed: boolean;
  readonly current: string;
  readonly series: (typeof resistorSeries)[number];
  /** The last try, and the one before it; null: the planned trials tell. */
  readonly last: TryText | null;
  readonly before: TryText | null;
}

/** Usual red and green parts, to begin with. */
export const usualLeds: readonly LedText[] = [
  { name: 'red', dominantNm: '625', mcd: '800', angleDeg: '30', atMa: '20', forwardV: '2.0', maxMa: '20' },
  { name: 'green', dominantNm: '525', mcd: '2500', angleDeg: '30', atMa: '20', forwardV: '3.2', maxMa: '20' },
];

/** What red and green lack beside a filament's glow. */
const usualBlue: LedText = { name: 'blue', dominantNm: '470', mcd: '600', angleDeg: '30', atMa: '20', forwardV: '3.2', maxMa: '20' }; // prettier-ignore

/** The lamp to begin a third one with: of red, green and blue the first that is not there. */
export function lampToAdd(leds: readonly LedText[]): LedText {
  return [...usualLeds, usualBlue].find(({ name }) => leds.every((led) => led.name !== name)) ?? usualBlue;
}

/** A mix without one of its lamps: the currents of a try stay with the lamps that are left. */
export function withoutLamp({ leds, last, before }: MixText, index: number): Pick<MixText, 'leds' | 'last' | 'before'> {
  const left = <Of>(all: readonly Of[]): readonly Of[] => all.filter((_, i) => i !== index);
  const told = (one: TryText | null): TryText | null => one && { ...one, currents: left(one.currents) };
  return { leds: left(leds), last: told(last), before: told(before) };
}

export const usualFilamentK = 2400;

const usualMix: MixText = {
  leds: usualLeds,
  supply: { kind: 'dc', volts: '12', voltsWithoutLamp: '', hz: '50' },
  isByReference: true,
  kelvin: String(usualFilamentK),
  isDyed: false,
  current: '',
  series: 'E24',
  last: null,
  before: null,
};

const key = 'evendial-mix-form';

/** The form of a mix: what was typed from data sheets is there for the next photo too, and while the page's tab lives. */
export class MixForm {
  readonly text = signal<MixText>(usualMix);
  readonly isDamaged: boolean;

  constructor(readonly storage: KeptStorage) {
    const { kept, isDamaged } = keptList(storage, key, isMixText);
    this.text.value = kept.at(0) ?? usualMix;
    this.isDamaged = isDamaged;
  }

  put(change: Partial<MixText>): void {
    this.text.value = { ...this.text.value, ...change };
    this.storage.setItem(key, JSON.stringify([this.text.value]));
  }
}

function isTry(given: unknown): boolean {
  if (given === null) return true;
  if (!isObject(given) || !holdsTexts(given, ['uPrime', 'vPrime'])) return false;
  const { by, currents } = given;
  const isTold = by === 'typed' || by === 'none' || (isObject(by) && typeof by['photo'] === 'string');
  return isTold && Array.isArray(currents) && currents.every((text) => typeof text === 'string');
}

/** As far as the form looks at it. */
function isMixText(given: unknown): given is MixText {
  if (!isObject(given) || !holdsTexts(given, ['kelvin', 'current'])) return false;
  const { leds, supply, series, last, before } = given;
  const areLeds =
    Array.isArray(leds) &&
    [2, 3].includes(leds.length) &&
    leds.every((led) => isObject(led) && holdsTexts(led, Object.keys(usualLeds[0])));
  const isSupply = isObject(supply) && holdsTexts(supply, Object.keys(usualMix.supply));
  return areLeds && isSupply && resistorSeries.some((one) => one === series) && isTry(last) && isTry(before);
}
