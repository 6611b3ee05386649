import type { Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { gate, shape } from './gate';

/** Blur and shake. */
export function sharpnessGates({ checks: { edgeMm, edgePx } }: GateFacts): Gate[] {
  if (edgeMm === null || edgePx === null) return [];
  const message = `Not sharp: the edges of the print are ${Number(edgeMm.toPrecision(2))} mm wide.`;
  const remedy = 'Use a tripod and the self-timer, focus on the print, and photograph again.';
  if (edgeMm > 1.5) return [gate('PHOTO_NOT_SHARP', 'refuse', edgeMm, shape, message, remedy)];
  // Coarse photos have their own gate, and close-ups wide edges in pixels: both measures must agree.
  const isSoft = (edgeMm > 0.5 && edgePx > 2.5) || (edgePx > 4 && edgeMm > 0.3);
  return isSoft ? [gate('PHOTO_NOT_SHARP', 'warn', edgeMm, ['redPrint', 'spots'], message, remedy)] : [];
}
