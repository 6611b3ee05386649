import type { UnitLamp, UnitWindow } from '../../../core/contract/unit-record';

/** From the window's top left corner as one reads it, down, and behind its front; mm. */
export type LampPlace = readonly [number, number, number];

/** Lamps may lie outside the window, behind its frame. */
export const marginMm = 10;
/** A lamp is placed to half a millimetre, which is as well as it can be bent. */
export const stepMm = 0.5;
export const largeStepMm = 5;

/** Where a lamp begins that has no place yet: the middle of the window, at a usual depth. */
export function firstPlace({ widthMm, heightMm }: UnitWindow): LampPlace {
  return [toStep(widthMm / 2), toStep(heightMm / 2), 10];
}

export const toStep = (mm: number): number => Math.round(mm / stepMm) * stepMm;

/** Of a lamp whose body nobody measured. */
export const usualBodyMm = 4;
/** A lamp is taken hold of within this of its middle, however thin it is. */
export const gripMm = 3.2;

/** From a lamp's body up to its name. */
export const nameGapMm = 1.2;

export interface PlannedLamp {
  readonly place: LampPlace | null;
  readonly bodyMm: number;
}

/**
 * What the plan shows, mm: left, top, width, height. Above and below the window only as much as lamps, their names and the ruler
 * take, since a window is mostly lit from within its own height.
 *
 * @param letterMm height of a line of text
 * @rule SU5
 */
export function planBox(
  { widthMm, heightMm }: Pick<UnitWindow, 'widthMm' | 'heightMm'>,
  lamps: readonly PlannedLamp[],
  letterMm: number,
): readonly [number, number, number, number] {
  const placed = lamps.flatMap(({ place, bodyMm }) =>
    place ? [{ y: place[1], reach: Math.max(bodyMm / 2 + nameGapMm, gripMm) }] : [],
  );
  const top = Math.min(-letterMm / 2, ...placed.map(({ y, reach }) => y - reach - letterMm));
  const ruler = heightMm + 2.8 + 1.3 * letterMm;
  const foot = Math.max(ruler, ...placed.map(({ y, reach }) => y + reach));
  return [-marginMm, top, widthMm + 2 * marginMm, foot - top];
}

/** Kept on the plan. */
export function keptOnPlan([x, y, z]: LampPlace, { widthMm, heightMm }: UnitWindow): LampPlace {
  const within = (mm: number, size: number): number => Math.min(size + marginMm, Math.max(-marginMm, toStep(mm)));
  return [within(x, widthMm), within(y, heightMm), z];
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The place after an arrow key; null for another key. */
export function movedByKey([x, y, z]: LampPlace, key: string, isLarge: boolean): LampPlace | null {
  const arrow = arrows[key];
  if (!arrow) return null;
  const by = isLarge ? largeStepMm : stepMm;
  return [x + arrow[0] * by, y + arrow[1] * by, z];
}

/** `positionMm` as it is written into a field. */
export const placeText = (place: LampPlace): string => place.map((mm) => String(Number(mm.toFixed(2)))).join(',');

/** A field as `placeText` writes it; null when it was taken away, or is no place. */
export function placeOfText(text: string): LampPlace | null {
  const [x, y, z] = text.split(',').map((mm) => (mm === '' ? NaN : Number(mm)));
  return [x, y, z].every(Number.isFinite) ? [x, y, z] : null;
}

export const placeOfLamp = ({ positionMm }: UnitLamp): LampPlace | null => positionMm ?? null;

/** A name that no lamp has yet: `lamp 3`. */
export function nextName(start: string, taken: readonly { readonly name: string }[]): string {
  let number = taken.length + 1;
  while (taken.some(({ name }) => name === `${start} ${number}`)) number++;
  return `${start} ${number}`;
}
