import type { FigureGroup, Gate, GateCode, GateLevel } from '../../contract/gates';

export const everything: readonly FigureGroup[] = ['evenness', 'spots', 'luminance', 'colour', 'redPrint'];

/** What a wrong pattern of light touches. */
export const shape: readonly FigureGroup[] = ['evenness', 'spots', 'redPrint'];

/** A share as a person reads it, with two digits. */
export const percent = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

/** One raised gate; `value` null when nothing was measured. */
export function gate(
  code: GateCode,
  level: GateLevel,
  value: number | null,
  affects: readonly FigureGroup[],
  message: string,
  remedy: string,
): Gate {
  return { code, level, message, remedy, value, affects };
}

/** The most severe first; those of one level stay in their order. */
export function bySeverity(gates: readonly Gate[]): Gate[] {
  const rank: Record<GateLevel, number> = { refuse: 0, warn: 1, note: 2 };
  return [...gates].sort((a, b) => rank[a.level] - rank[b.level]);
}

/** The first refusing gate that affects a group of figures, or null. */
export function refusalOf(gates: readonly Gate[], group: FigureGroup): Gate | null {
  return gates.find((raised) => raised.level === 'refuse' && raised.affects.includes(group)) ?? null;
}
