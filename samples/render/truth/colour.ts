import type { Xyz } from '../light/spectra';
import { cellsPerMm, type GlowCells } from './glow-cells';
import { temperatureOf } from './planckian';

export interface ColourFigures {
  readonly uPrime: number;
  readonly vPrime: number;
  readonly x: number;
  readonly y: number;
  readonly cctK: number | null;
  readonly duv: number;
  readonly spreadUv: number;
  readonly gradientUvPer10Mm: number;
  /** Whether the mean colour of the glow is one that sRGB can hold. */
  readonly insideGamut: boolean;
}

interface Block {
  readonly xMm: number;
  readonly yMm: number;
  readonly uPrime: number;
  readonly vPrime: number;
}

export function uvPrime([x, y, z]: Xyz): [number, number] {
  const sum = x + 15 * y + 3 * z;
  return [(4 * x) / sum, (9 * y) / sum];
}

/** Linear sRGB of tristimulus values, IEC 61966-2-1; channels outside the gamut are negative. */
export function linearSrgb([x, y, z]: Xyz): Xyz {
  return [
    3.2404542 * x - 1.5371385 * y - 0.4985314 * z,
    -0.969266 * x + 1.8760108 * y + 0.041556 * z,
    0.0556434 * x - 0.2040259 * y + 1.0572252 * z,
  ];
}

/** Squares of 2 mm of which at least half glows. */
function blocksOf(cells: GlowCells): Block[] {
  const side = 2 * cellsPerMm;
  const blocks: Block[] = [];
  for (let top = 0; top < cells.rows; top += side) {
    for (let left = 0; left < cells.columns; left += side) {
      const sum: [number, number, number] = [0, 0, 0];
      let count = 0;
      for (let row = top; row < Math.min(top + side, cells.rows); row++) {
        for (let column = left; column < Math.min(left + side, cells.columns); column++) {
          const at = row * cells.columns + column;
          if (!cells.isGlow[at]) continue;
          count++;
          for (let k = 0; k < 3; k++) sum[k] += cells.xyz[k][at];
        }
      }
      if (count < (side * side) / 2) continue;
      const [uPrime, vPrime] = uvPrime(sum);
      blocks.push({ xMm: (left + side / 2) / cellsPerMm, yMm: (top + side / 2) / cellsPerMm, uPrime, vPrime });
    }
  }
  return blocks;
}

/** Slope of a least-squares plane through block values, per mm across and down. */
function planeSlope(blocks: readonly Block[], valueOf: (block: Block) => number): [number, number] {
  const mean = (of: (block: Block) => number) => blocks.reduce((sum, block) => sum + of(block), 0) / blocks.length;
  const [mx, my, mv] = [mean((b) => b.xMm), mean((b) => b.yMm), mean(valueOf)];
  const xx = mean((b) => (b.xMm - mx) ** 2);
  const yy = mean((b) => (b.yMm - my) ** 2);
  const xy = mean((b) => (b.xMm - mx) * (b.yMm - my));
  const xv = mean((b) => (b.xMm - mx) * (valueOf(b) - mv));
  const yv = mean((b) => (b.yMm - my) * (valueOf(b) - mv));
  const determinant = xx * yy - xy * xy;
  return [(xv * yy - yv * xy) / determinant, (yv * xx - xv * xy) / determinant];
}

/** Luminance-weighted sum over the glow. */
export function glowSum(cells: GlowCells): Xyz {
  const sum: [number, number, number] = [0, 0, 0];
  cells.isGlow.forEach((glows, at) => {
    if (glows) for (let k = 0; k < 3; k++) sum[k] += cells.xyz[k][at];
  });
  return sum;
}

export function colourFigures(cells: GlowCells): ColourFigures {
  const total = glowSum(cells);
  const [uPrime, vPrime] = uvPrime(total);
  const blocks = blocksOf(cells);
  const squares = blocks.map((block) => (block.uPrime - uPrime) ** 2 + (block.vPrime - vPrime) ** 2);
  const slopes = [planeSlope(blocks, (b) => b.uPrime), planeSlope(blocks, (b) => b.vPrime)].flat();
  return {
    uPrime,
    vPrime,
    x: total[0] / (total[0] + total[1] + total[2]),
    y: total[1] / (total[0] + total[1] + total[2]),
    ...temperatureOf(total),
    spreadUv: Math.sqrt(squares.reduce((sum, value) => sum + value, 0) / squares.length),
    gradientUvPer10Mm: 10 * Math.hypot(...slopes),
    insideGamut: linearSrgb(total).every((channel) => channel >= 0),
  };
}
