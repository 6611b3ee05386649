import type { FigureGroup, Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { everything, gate, percent, shape } from './gate';

/** A search that is less sure may have found something else than a lit window. */
const sureFrom = 0.5;

/** More of the outline than this behind a dark gap is no bezel's shadow. */
const mostDarkRim = 0.04;

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
  if (facts.darkRim.share > mostDarkRim && (facts.polarity === 'dark' || facts.polarity === 'none')) {
    const { share, widthMm } = facts.darkRim;
    const message = `The light stops ${Number(widthMm.toPrecision(2))} mm inside the outline on ${percent(share)} of its length.`;
    const remedy = 'Move the corners from the frame onto the lit part; cut off or leave out a part that is covered.';
    const affects: readonly FigureGroup[] = [...shape, 'luminance'];
    raised.push(gate('OUTLINE_ON_FRAME', 'refuse', share, affects, message, remedy));
  }
  return raised;
}
