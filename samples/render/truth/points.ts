import { smoothedLuminance } from './classic';
import { cellsPerMm, type GlowMap } from './glow-cells';

export interface PointFigures {
  readonly minOverMax: number | null;
  /** Row by row, relative to the largest; null where too little glow is near. */
  readonly values: readonly (number | null)[];
}

type Fractions = readonly (readonly [number, number])[];

const grid = (fractions: readonly number[]): Fractions => fractions.flatMap((y) => fractions.map((x) => [x, y] as const));
const nine = grid([1 / 6, 1 / 2, 5 / 6]);
const five: Fractions = [[0.5, 0.5], [0.1, 0.1], [0.9, 0.1], [0.1, 0.9], [0.9, 0.9]];
const thirteen: Fractions = [...grid([0.1, 0.5, 0.9]), [0.3, 0.3], [0.7, 0.3], [0.3, 0.7], [0.7, 0.7]];

/** Mean over the glow in a round aperture, or null with less than 30 % glow in it. */
function apertureMean(map: GlowMap, smooth: Float64Array, xMm: number, yMm: number, diameterMm: number): number | null {
  let [cells, glowing, sum] = [0, 0, 0];
  const reach = Math.ceil((diameterMm / 2) * cellsPerMm) + 1;
  const [cx, cy] = [Math.floor(xMm * cellsPerMm), Math.floor(yMm * cellsPerMm)];
  for (let row = cy - reach; row <= cy + reach; row++) {
    for (let column = cx - reach; column <= cx + reach; column++) {
      const away = Math.hypot((column + 0.5) / cellsPerMm - xMm, (row + 0.5) / cellsPerMm - yMm);
      if (away > diameterMm / 2) continue;
      cells++;
      if (row < 0 || column < 0 || row >= map.ny || column >= map.nx) continue;
      const at = row * map.nx + column;
      if (map.glow[at]) [glowing, sum] = [glowing + 1, sum + smooth[at]];
    }
  }
  return glowing >= 0.3 * cells && glowing > 0 ? sum / glowing : null;
}

/** The place itself, else the nearest within 2 mm (and 20 % of each side) that has glow enough. */
function valueNear(map: GlowMap, smooth: Float64Array, xMm: number, yMm: number, diameterMm: number): number | null {
  const { widthMm, heightMm } = map.shape;
  const shifts = grid(Array.from({ length: 17 }, (_, i) => (i - 8) / 4))
    .filter(([dx, dy]) => Math.hypot(dx, dy) <= 2 && Math.abs(dx) <= 0.2 * widthMm && Math.abs(dy) <= 0.2 * heightMm)
    .sort((a, b) => Math.hypot(...a) - Math.hypot(...b));
  for (const [dx, dy] of shifts) {
    const value = apertureMean(map, smooth, xMm + dx, yMm + dy, diameterMm);
    if (value !== null) return value;
  }
  return null;
}

function figuresAt(map: GlowMap, fractions: Fractions): PointFigures {
  const smooth = smoothedLuminance(map);
  const { widthMm, heightMm } = map.shape;
  const diameterMm = Math.max(1.5, 0.04 * heightMm);
  const values = fractions.map(([fx, fy]) => valueNear(map, smooth, fx * widthMm, fy * heightMm, diameterMm));
  const known = values.filter((value): value is number => value !== null);
  const largest = Math.max(...known);
  return {
    minOverMax: known.length * 3 >= fractions.length * 2 ? Math.min(...known) / largest : null,
    values: values.map((value) => (value === null ? null : value / largest)),
  };
}

export function ninePoint(map: GlowMap): PointFigures {
  return figuresAt(map, nine);
}

/** Five and thirteen points belong to rectangles; null else. */
export function fivePoint(map: GlowMap): PointFigures | null {
  return map.shape.outline.kind === 'rectangle' ? figuresAt(map, five) : null;
}

export function thirteenPoint(map: GlowMap): PointFigures | null {
  return map.shape.outline.kind === 'rectangle' ? figuresAt(map, thirteen) : null;
}
