import type { FigureGroup, Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { everything, gate, percent, shape } from './gate';

/** Fewer cells (of 0.25 mm) than these have no mean worth giving. */
const leastCells = 64;

/** Lit figures are few and narrow: so many of their cells are needed for a verdict on evenness. */
const leastLitCells = 200;

/** How much of the window there is to measure. */
export function sizeGates(facts: GateFacts): Gate[] {
  const raised: Gate[] = [];
  if (facts.pxPerMm < 6) {
    const level = facts.pxPerMm < 3 ? 'refuse' : 'warn';
    const affects: readonly FigureGroup[] = level === 'refuse' ? shape : ['redPrint', 'spots'];
    const message = `The window is small in the photo: ${Number(facts.pxPerMm.toPrecision(2))} pixels a mm.`;
    raised.push(gate('RESOLUTION_LOW', level, facts.pxPerMm, affects, message, 'Go closer or use the longer lens.'));
  }
  const isLit = facts.polarity === 'light';
  const tooLittle = isLit ? facts.glowCells < leastLitCells : facts.glowShare < 0.3;
  if (tooLittle || facts.glowCells < leastCells || facts.longSideMm < 8) {
    const affects = facts.glowCells < leastCells ? everything : shape;
    const message =
      facts.longSideMm < 8
        ? `The window is only ${Number(facts.longSideMm.toPrecision(2))} mm long.`
        : isLit
          ? `The lit figures cover only ${facts.glowCells} cells of 0.25 mm.`
          : `Only ${percent(facts.glowShare)} of the window is free of print.`;
    const remedy =
      'Check the outline, the size and the kind of print; windows this small are compared by eye or with their neighbour.';
    raised.push(gate('GLOW_TOO_SMALL', 'refuse', facts.glowShare, affects, message, remedy));
  }
  if (!facts.sizeKnown) {
    const message = 'The size of the window was not given: 60 mm wide is assumed, and all lengths are relative.';
    raised.push(
      gate('SIZE_ASSUMED', 'note', null, ['spots'], message, 'Measure the window with a caliper and give its size.'),
    );
  }
  return raised;
}
