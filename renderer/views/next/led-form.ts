import type { Led } from '../../../core/advice/led';
import type { Supply } from '../../../core/advice/supply';
import type { LedText, SupplyText } from '../../state/mix-form';
import { numberIn } from './number-in';

export type LedField = Exclude<keyof LedText, 'name'>;

/** Every number of a data sheet, with its limits as the command line has them. */
export const ledFields: readonly {
  readonly key: LedField;
  readonly label: string;
  readonly unit: string;
  readonly limits: readonly [number, number];
  /** Without it a mix is given, but no resistor. */
  readonly isOptional?: boolean;
}[] = [
  { key: 'dominantNm', label: 'Dominant wavelength', unit: 'nm', limits: [400, 690] },
  { key: 'mcd', label: 'Intensity', unit: 'mcd', limits: [0.1, 1e6], isOptional: true },
  { key: 'angleDeg', label: 'Full viewing angle', unit: '°', limits: [2, 175], isOptional: true },
  { key: 'atMa', label: 'at a current of', unit: 'mA', limits: [0.1, 5000], isOptional: true },
  { key: 'forwardV', label: 'Forward voltage', unit: 'V', limits: [1, 60] },
  { key: 'maxMa', label: 'Maximum current', unit: 'mA', limits: [0.1, 5000] },
];

/** Whether a field of a data sheet is wrong as it stands. */
export function isWrong(led: LedText, key: LedField): boolean {
  const { limits, isOptional } = ledFields.find((field) => field.key === key)!;
  return numberIn(led[key], limits) === null && !(isOptional && led[key].trim() === '');
}

const calledBy = ({ name }: LedText): string => name.trim() || 'lamp';

/** What the lamps of a form are called, each apart from the others. */
export function namesApart(leds: readonly LedText[]): string[] {
  const names = leds.map(calledBy);
  return names.map((name, i) => (names.indexOf(name) < i ? `${name} ${i + 1}` : name));
}

/** The lamp of a form; null while a field is wrong. */
export function ledOf(led: LedText, name = calledBy(led)): Led | null {
  if (ledFields.some(({ key }) => isWrong(led, key))) return null;
  const number = (key: LedField): number | null => numberIn(led[key], [0, Infinity]);
  const [mcd, angleDeg] = [number('mcd'), number('angleDeg')];
  return {
    name,
    colour: { kind: 'dominant', dominantNm: number('dominantNm')! },
    light: mcd === null ? null : { kind: 'intensity', mcd, angleDeg },
    atMa: number('atMa'),
    forwardV: number('forwardV')!,
    maxMa: number('maxMa')!,
    inSeries: 1,
  };
}

const supplyLimits = { dc: [1, 60], ac: [2, 42] } as const;
/** Behind a bridge, as the command line takes it. */
const usualCapacitorUf = 470;

const withoutLampLimits = [1, 60] as const;

export const isVoltsWrong = ({ kind, volts }: SupplyText): boolean => numberIn(volts, supplyLimits[kind]) === null;

/** It may be left empty. */
export const isVoltsWithoutLampWrong = ({ voltsWithoutLamp }: SupplyText): boolean =>
  voltsWithoutLamp.trim() !== '' && numberIn(voltsWithoutLamp, withoutLampLimits) === null;

/** The supply of a form; null while it is wrong. */
export function supplyOf(supply: SupplyText): Supply | null {
  const { kind, hz } = supply;
  const volts = numberIn(supply.volts, supplyLimits[kind]);
  if (volts === null || isVoltsWithoutLampWrong(supply)) return null;
  const shared = { volts, voltsWithoutLamp: numberIn(supply.voltsWithoutLamp, withoutLampLimits) };
  return kind === 'dc' ? { kind, ...shared } : { kind, ...shared, hz: Number(hz), capacitorUf: usualCapacitorUf };
}
