import type { FigureGroup, Gate } from '../../contract/gates';
import type { DarkRim } from '../dark-rim';
import type { GateFacts } from './gate-facts';
import { everything, gate, percent, shape } from './gate';

/** A search that is less sure may have found something else than a lit window. */
const sureFrom = 0.5;

/** More of the outline than this behind a dark gap is no bezel's shadow. */
const mostDarkRim = 0.04;

/** Print reaches the outline here and there; along a quarter of it, it is a frame. */
const mostPrintedRim = 0.25;

/** How the window stands in the photo, and whether the outline is its own. */
export function viewGates(facts: GateFacts): Gate[] {
  const raised: Gate[] = [];
  if (facts.tiltDeg > 35) {
    const level = facts.tiltDeg > 55 ? 'refuse' : 'warn';
    const message = `The window is seen from the side, ${Math.round(facts.tiltDeg)} degrees off the straight view.`;
    raised.push(gate('TILTED', level, facts.tiltDeg, shape, message, 'Stand straight in front of the window.'));
  }
  if (facts.viewShare > 0.6) {
    const message = `The window fills ${percent(facts.viewShare)} of the photo's longer side: dark corners of the lens may count as dark ends.`;
    const remedy = 'Step back, or zoom out, until the window fills less than 40 % of it.';
    raised.push(gate('WINDOW_TOO_WIDE', 'warn', facts.viewShare, ['evenness'], message, remedy));
  }
  if (facts.checks.frameDistancePx <= 1) {
    const level = facts.checks.frameDistancePx <= -1 ? 'refuse' : 'warn';
    const message = 'The window touches the edge of the photo: a part of it may be missing.';
    const remedy = 'Step back until the whole window and some of the front around it are in the photo.';
    raised.push(gate('WINDOW_CUT', level, facts.checks.frameDistancePx, shape, message, remedy));
  }
  if (facts.aspectError !== null && facts.aspectError > 0.08) {
    const message = facts.isSizeSwapped
      ? 'The size looks swapped: the corners show a window that is as wide as the stated height.'
      : `The corners give another shape than the stated size, by ${percent(facts.aspectError)}.`;
    const remedy = facts.isSizeSwapped
      ? 'State the width first, then the height: 92x18 for a long scale.'
      : 'Check the corners and the width and height in mm.';
    raised.push(gate('ASPECT_DIFFERS', 'warn', facts.aspectError, ['evenness', 'spots'], message, remedy));
  }
  if (facts.searchConfidence !== null && facts.searchConfidence < sureFrom) {
    const message = `The outline was found by the search, and it is not sure of it (${facts.searchConfidence.toFixed(2)} of 1).`;
    const remedy = 'Look at the picture of the window; give the corners if they are not those of the lit part.';
    raised.push(gate('OUTLINE_UNSURE', 'warn', facts.searchConfidence, everything, message, remedy));
  }
  if (facts.polarity === 'dark' || facts.polarity === 'none') raised.push(...frameGates(facts));
  return raised;
}

/** Corners on the frame: it counts as glow, or was taken for print. */
function frameGates({ darkRim, printedRim }: GateFacts): Gate[] {
  const remedy = 'Move the corners from the frame onto the lit part; cut off or leave out a part that is covered.';
  const seen = ({ share, widthMm }: DarkRim): string =>
    `The light stops ${Number(widthMm.toPrecision(2))} mm inside the outline on ${percent(share)} of its length`;
  const affects: readonly FigureGroup[] = [...shape, 'luminance'];
  if (darkRim.share > mostDarkRim) {
    return [gate('OUTLINE_ON_FRAME', 'refuse', darkRim.share, affects, `${seen(darkRim)}.`, remedy)];
  }
  if (printedRim.share <= mostPrintedRim) return [];
  const message = `${seen(printedRim)}: a frame may have been taken for print.`;
  return [gate('OUTLINE_ON_FRAME', 'warn', printedRim.share, shape, message, remedy)];
}
