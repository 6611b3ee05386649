import { fieldAt } from '../light/field-map';
import type { Xyz } from '../light/spectra';
import type { LightLayer, Outline } from '../window-scene';

export const cellsPerMm = 4;

/** Print-free light of a window in cells of 0.25 mm, row by row from the top-left corner. */
export interface GlowCells {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly outline: Outline;
  readonly columns: number;
  readonly rows: number;
  /** X, Y, Z planes: averages over each cell. */
  readonly xyz: readonly [Float64Array, Float64Array, Float64Array];
  /** 1 where the cell's middle lies inside the outline. */
  readonly inOutline: Uint8Array;
  /** 1 where the whole cell lies inside the outline less its border. */
  readonly isGlow: Uint8Array;
}

/** 1.0 mm, at most 8 % of the shorter side. */
export function borderMm(widthMm: number, heightMm: number): number {
  return Math.min(1, 0.08 * Math.min(widthMm, heightMm));
}

function distanceToSegment(x: number, y: number, a: readonly [number, number], b: readonly [number, number]): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const along = Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - a[0] - along * dx, y - a[1] - along * dy);
}

/** Distance to a polygon's edge, positive inside. */
function depthInPolygon(x: number, y: number, points: readonly (readonly [number, number])[]): number {
  let nearest = Infinity;
  let inside = false;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length];
    nearest = Math.min(nearest, distanceToSegment(x, y, a, b));
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  });
  return inside ? nearest : -nearest;
}

/** How deep a place lies inside the outline, mm; negative outside. Ellipses must be round. */
export function depthInside(outline: Outline, widthMm: number, heightMm: number, xMm: number, yMm: number): number {
  if (outline.kind === 'rectangle') return Math.min(xMm, yMm, widthMm - xMm, heightMm - yMm);
  if (widthMm !== heightMm) throw new RangeError('only round windows have an exact eroded outline');
  const round = widthMm / 2 - Math.hypot(xMm - widthMm / 2, yMm - heightMm / 2);
  return outline.cutMm ? Math.min(round, depthInPolygon(xMm, yMm, outline.cutMm)) : round;
}

/** Cuts a window into cells; `lightAt` gives the tristimulus values of the light without print at a place in mm. */
export function cellsFromLight(
  widthMm: number,
  heightMm: number,
  outline: Outline,
  lightAt: (xMm: number, yMm: number) => Xyz,
): GlowCells {
  const columns = Math.ceil(widthMm * cellsPerMm);
  const rows = Math.ceil(heightMm * cellsPerMm);
  const xyz = [0, 1, 2].map(() => new Float64Array(columns * rows)) as [Float64Array, Float64Array, Float64Array];
  const inOutline = new Uint8Array(columns * rows);
  const isGlow = new Uint8Array(columns * rows);
  const border = borderMm(widthMm, heightMm);
  const depth = (x: number, y: number) => depthInside(outline, widthMm, heightMm, x / cellsPerMm, y / cellsPerMm);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const at = row * columns + column;
      // Two by two samples average a field that is smooth over 0.25 mm to better than 1e-4.
      for (const [right, down] of [
        [0.25, 0.25],
        [0.75, 0.25],
        [0.25, 0.75],
        [0.75, 0.75],
      ]) {
        const light = lightAt((column + right) / cellsPerMm, (row + down) / cellsPerMm);
        for (let k = 0; k < 3; k++) xyz[k][at] += light[k] / 4;
      }
      inOutline[at] = depth(column + 0.5, row + 0.5) > 0 ? 1 : 0;
      const shallowest = Math.min(
        depth(column, row),
        depth(column + 1, row),
        depth(column, row + 1),
        depth(column + 1, row + 1),
      );
      isGlow[at] = shallowest >= border - 1e-9 ? 1 : 0;
    }
  }
  return { widthMm, heightMm, outline, columns, rows, xyz, inOutline, isGlow };
}

/** Tristimulus values of all layers together, in cells. */
export function cellsOfLayers(
  widthMm: number,
  heightMm: number,
  outline: Outline,
  layers: readonly LightLayer[],
): GlowCells {
  return cellsFromLight(widthMm, heightMm, outline, (xMm, yMm) => {
    const sum: [number, number, number] = [0, 0, 0];
    for (const layer of layers) {
      const strength = fieldAt(layer.field, xMm, yMm);
      for (let k = 0; k < 3; k++) sum[k] += strength * layer.xyzThroughScale[k];
    }
    return sum;
  });
}

/** Values of a plane at the glow cells. */
export function glowValues(cells: GlowCells, plane: Float64Array): Float64Array {
  return plane.filter((_, at) => cells.isGlow[at] === 1);
}
