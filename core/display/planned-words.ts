import { figure, type Figure } from '../contract/figure';
import type { UnitRecord, UnitTrial } from '../contract/unit-record';
import { shortFigure } from './figure-text';

/**
 * What was forecast beside what was measured, in a line; null when one of them is missing.
 *
 * Both differ beyond doubt when they lie further apart than the root of the squares of their plus-minus.
 *
 * @source JCGM 100: two figures of independent doubt, k = 2
 * @rule PN1
 */
export function plannedAgainstMeasured(planned: Figure, measured: Figure): string | null {
  if (planned.value === null || measured.value === null) return null;
  const apart = measured.value - planned.value;
  const open = Math.hypot(planned.plusMinus ?? 0, measured.plusMinus ?? 0);
  const both = `forecast ${shortFigure(planned)}, measured ${shortFigure(measured)}`;
  if (Math.abs(apart) <= open) return `As planned: ${both}.`;
  return `${apart > 0 ? 'Better than planned' : 'Not as planned'}: ${both}.`;
}

/**
 * What was planned of a trial, and beside it what was measured of its window: `lamp 1: 4 mm back. As planned: forecast 71 ± 7, measured 68 ± 6.`
 *
 * @param window    the one in view; a forecast of another one is left out
 * @param measured  evenness of the trial in that window; null: not measured
 * @returns null when nothing was planned
 * @rule PN3
 */
export function plannedWords(
  { windows }: Pick<UnitRecord, 'windows'>,
  { planned }: UnitTrial,
  window: string,
  measured: Figure | null,
): string | null {
  if (planned === undefined) return null;
  const { what, evenness, evennessPlusMinus } = planned;
  const isOfWindow = planned.window === undefined ? windows.length === 1 : planned.window === window;
  const forecast = isOfWindow && evenness !== undefined && evennessPlusMinus !== undefined ? figure(evenness, evennessPlusMinus) : null; // prettier-ignore
  const compared = forecast && measured && plannedAgainstMeasured(forecast, measured);
  const line = compared ?? (forecast === null ? null : `Evenness ${shortFigure(forecast)} forecast.`);
  const told = [what === undefined ? null : what.replace(/\.?$/, '.'), line].filter((part) => part !== null);
  return told.length === 0 ? null : told.join(' ');
}
