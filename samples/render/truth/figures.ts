import { type ClassicFigures, classicFigures, smoothedLuminance } from './classic';
import { type ColourFigures, colourFigures } from './colour';
import { type GlowCells, glowValues } from './glow-cells';
import { fivePoints, ninePoints, type PointFigures, pointFigures, thirteenPoints } from './points';
import { evennessScore } from './score';

export interface TrueFigures extends ClassicFigures, ColourFigures {
  readonly score: number;
  readonly ninePoint: PointFigures;
  readonly fivePoint: PointFigures | null;
  readonly thirteenPoint: PointFigures | null;
  /** Mean luminance of the glow in the unit of the lamps' flux: only ratios between samples mean something. */
  readonly glowMeanRelative: number;
}

/** Every figure of the light behind a window, from the light field and never from pixels. */
export function trueFigures(cells: GlowCells, viewingDistanceMm = 500): TrueFigures {
  const smoothed = smoothedLuminance(cells);
  const glow = glowValues(cells, cells.xyz[1]);
  const round = cells.outline.kind === 'ellipse';
  return {
    score: evennessScore(cells, viewingDistanceMm),
    ...classicFigures(cells, smoothed),
    ninePoint: pointFigures(cells, smoothed, ninePoints),
    fivePoint: round ? null : pointFigures(cells, smoothed, fivePoints),
    thirteenPoint: round ? null : pointFigures(cells, smoothed, thirteenPoints),
    ...colourFigures(cells),
    glowMeanRelative: glow.reduce((sum, value) => sum + value, 0) / glow.length,
  };
}
