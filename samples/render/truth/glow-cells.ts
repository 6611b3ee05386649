import { fieldMarginMm } from '../light/field-map';
import type { Xyz } from '../light/spectra';
import { outlineDistance, type Shape } from '../outline-distance';
import type { LightLayer } from '../window-scene';

/** The print-free glow on cells of a quarter mm. */
export interface GlowMap {
  readonly shape: Shape;
  readonly nx: number;
  readonly ny: number;
  /** X, Y and Z of each cell: the mean of the field over the cell. */
  readonly xyz: readonly [Float64Array, Float64Array, Float64Array];
  /** 1 where the cell lies whole inside the outline. */
  readonly insideOutline: Uint8Array;
  /** 1 where the cell lies whole inside the outline less its border. */
  readonly glow: Uint8Array;
  readonly borderMm: number;
}

export const cellsPerMm = 4;

/** Cells whose four corners lie at least `borderMm` inside the outline. All outlines here are convex. */
function cellsInside(shape: Shape, nx: number, ny: number, borderMm: number): Uint8Array {
  const far = (x: number, y: number) => outlineDistance(shape, x, y) <= -borderMm + 1e-9;
  return Uint8Array.from({ length: nx * ny }, (_, i) => {
    const [x0, y0] = [(i % nx) / cellsPerMm, Math.floor(i / nx) / cellsPerMm];
    const [x1, y1] = [x0 + 1 / cellsPerMm, y0 + 1 / cellsPerMm];
    return far(x0, y0) && far(x1, y0) && far(x0, y1) && far(x1, y1) ? 1 : 0;
  });
}

/** Shape, size and cells of a map, with planes filled by `xyzOf` per cell. */
export function glowMapFrom(shape: Shape, xyzOf: (column: number, row: number) => Xyz): GlowMap {
  const [nx, ny] = [Math.ceil(shape.widthMm * cellsPerMm), Math.ceil(shape.heightMm * cellsPerMm)];
  const planes = [0, 1, 2].map(() => new Float64Array(nx * ny));
  for (let row = 0; row < ny; row++) {
    for (let column = 0; column < nx; column++) {
      const xyz = xyzOf(column, row);
      for (let k = 0; k < 3; k++) planes[k][row * nx + column] = xyz[k];
    }
  }
  const borderMm = Math.min(1, 0.08 * Math.min(shape.widthMm, shape.heightMm));
  return {
    shape,
    nx,
    ny,
    xyz: [planes[0], planes[1], planes[2]],
    insideOutline: cellsInside(shape, nx, ny, 0),
    glow: cellsInside(shape, nx, ny, borderMm),
    borderMm,
  };
}

/** Mean of the field over each cell: the fields have whole numbers of their own cells in one of these. */
export function glowMapOf(shape: Shape, layers: readonly LightLayer[]): GlowMap {
  return glowMapFrom(shape, (column, row) => {
    const sum: [number, number, number] = [0, 0, 0];
    for (const { field, xyzThroughScale } of layers) {
      const ratio = field.cellsPerMm / cellsPerMm;
      const left = column * ratio + fieldMarginMm * field.cellsPerMm;
      const top = row * ratio + fieldMarginMm * field.cellsPerMm;
      let total = 0;
      for (let j = 0; j < ratio; j++) {
        for (let i = 0; i < ratio; i++) total += field.values[(top + j) * field.widthCells + left + i];
      }
      for (let k = 0; k < 3; k++) sum[k] += (total / (ratio * ratio)) * xyzThroughScale[k];
    }
    return sum;
  });
}

/** Numbers of the cells that count. */
export function glowCells(map: GlowMap): number[] {
  return Array.from(map.glow.keys()).filter((i) => map.glow[i] === 1);
}
