import type { FigureGroup, Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { gate, percent, shape } from './gate';

/** Light that is not the window's own: flicker, what the pane reflects, what the camera changed. */
export function disturbanceGates({ checks }: GateFacts): Gate[] {
  const raised: Gate[] = [];
  const stripes = checks.stripesPeakToPeak;
  if (stripes !== null && stripes > 0.01) {
    const level = stripes > 0.04 ? 'refuse' : 'warn';
    const affects: readonly FigureGroup[] = level === 'refuse' ? [...shape, 'luminance'] : ['evenness', 'spots'];
    const message = `Stripes of ${percent(stripes)} run across the glow: the lamps flicker.`;
    const remedy = 'Expose for 1/10 s or 1/5 s, or feed the lamps with direct current.';
    raised.push(gate('BANDING', level, stripes, affects, message, remedy));
  }
  if (checks.reflection) {
    const { largest, share } = checks.reflection;
    const place = `${Math.round(largest.atMm.xMm)}, ${Math.round(largest.atMm.yMm)} mm`;
    const message = `Something seems to be reflected in the pane, at ${place}: a cool patch with a sharp edge.`;
    const remedy = 'Hang a dark cloth behind the camera, take the pane off, or leave the patch out.';
    raised.push(gate('REFLECTION', 'warn', share, shape, message, remedy));
  }
  if (checks.toneHints.length > 0) {
    const level = checks.isToneMapped ? 'refuse' : 'warn';
    const affects: readonly FigureGroup[] = [...shape, 'luminance'];
    const message = `The photo's notes speak of ${checks.toneHints.join(', ')}: light may have been changed place by place.`;
    const remedy = 'Switch HDR, night and portrait modes and filters off, and photograph again.';
    raised.push(gate('TONE_MAPPED', level, null, affects, message, remedy));
  }
  return raised;
}
