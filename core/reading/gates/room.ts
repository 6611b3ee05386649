import type { FigureGroup, Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { gate, percent } from './gate';

/** Light that fell on the window from outside. */
export function roomGates(facts: GateFacts): Gate[] {
  const remedy = 'Darken the room, and photograph again.';
  if (facts.ambientShare !== null) {
    if (facts.ambientShare <= 0.05) return [];
    // A toe of the tone curve makes the dim lamp-off photo darker still: 18 % of the light read 12 %.
    const orMore = facts.isResponseKnown ? '' : ' or more, since the camera’s tone curve is not known';
    const message = `Room light: ${percent(facts.ambientShare)} of the lamp's light${orMore}; it was subtracted.`;
    const refusesRed = facts.ambientShare > 0.25;
    const warned: readonly FigureGroup[] = refusesRed ? ['evenness', 'luminance', 'colour'] : ['evenness', 'redPrint'];
    const warn = gate('ROOM_LIGHT', 'warn', facts.ambientShare, warned, message, remedy);
    if (!refusesRed) return [warn];
    return [warn, gate('ROOM_LIGHT', 'refuse', facts.ambientShare, ['redPrint'], message, remedy)];
  }
  if (facts.room === 'dark') {
    const message = 'The room is taken as dark, as stated; that is not checked.';
    const nothing = 'Nothing to do if it was dark; other light would make the red print look too red.';
    return [gate('ROOM_UNKNOWN', 'warn', null, ['redPrint'], message, nothing)];
  }
  if (facts.room === 'lit') {
    const message = 'Other light than the lamp fell on the window, and there is no lamp-off photo to subtract.';
    return [
      gate('ROOM_LIGHT', 'warn', null, ['evenness', 'luminance', 'colour'], message, remedy),
      gate('ROOM_LIGHT', 'refuse', null, ['redPrint'], message, remedy),
    ];
  }
  const message = 'The red print cannot be judged: it is not known whether other light fell on the window.';
  return [gate('ROOM_UNKNOWN', 'refuse', null, ['redPrint'], message, `State the room as dark if it was. ${remedy}`)];
}
