import type { Plane } from '../base/plane';
import { correlationStep } from './correlation-step';
import type { Slopes } from './derivative-sums';
import { type Frame, type Warp, type WarpModel } from './warp';

/** At most so many steps; 10 to 20 are usual. */
const mostSteps = 80;
/** A step that gains less is the last. */
const leastGain = 1e-6;

export interface Alignment {
  readonly warp: Warp;
  /** -1..1; NaN when either picture is flat where both are known. */
  readonly correlation: number;
}

/**
 * Bends the second picture until it correlates best with the first, from a start within about a stroke's width.
 *
 * @param first NaN = not compared
 * @returns the best warp met on the way; the start, when no step makes it better
 * @source Evangelidis & Psarakis, IEEE Trans. PAMI 30, 2008 (from memory); 80 steps, gain 1e-6: our own choice
 * @rule RG2
 */
export function alignPictures(first: Plane, second: Slopes, start: Warp, frame: Frame, model: WarpModel): Alignment {
  let best: Alignment = { warp: start, correlation: NaN };
  let warp: Warp = start;
  for (let i = 0; i < mostSteps; i++) {
    const step = correlationStep(first, second, warp, frame, model);
    const isBetter = i === 0 || step.correlation > best.correlation;
    const gain = step.correlation - best.correlation;
    if (isBetter) best = { warp, correlation: step.correlation };
    if (!step.next || (i > 0 && gain < leastGain)) break;
    warp = step.next;
  }
  return best;
}
