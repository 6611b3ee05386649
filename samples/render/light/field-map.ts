/** A smooth quantity on a window and a little beyond, sampled at cell middles. */
export interface FieldMap {
  readonly cellsPerMm: number;
  /** How far the map goes beyond the window on every side, mm. */
  readonly marginMm: number;
  readonly widthCells: number;
  readonly heightCells: number;
  readonly values: Float64Array;
}

export const fieldCellsPerMm = 8;
export const fieldMarginMm = 3;

/** Samples `valueAt` (mm from the window's top-left corner) at every cell middle. */
export function sampleField(
  widthMm: number,
  heightMm: number,
  valueAt: (xMm: number, yMm: number) => number,
): FieldMap {
  const widthCells = Math.ceil((widthMm + 2 * fieldMarginMm) * fieldCellsPerMm);
  const heightCells = Math.ceil((heightMm + 2 * fieldMarginMm) * fieldCellsPerMm);
  const values = new Float64Array(widthCells * heightCells);
  for (let row = 0; row < heightCells; row++) {
    for (let column = 0; column < widthCells; column++) {
      const xMm = (column + 0.5) / fieldCellsPerMm - fieldMarginMm;
      const yMm = (row + 0.5) / fieldCellsPerMm - fieldMarginMm;
      values[row * widthCells + column] = valueAt(xMm, yMm);
    }
  }
  return { cellsPerMm: fieldCellsPerMm, marginMm: fieldMarginMm, widthCells, heightCells, values };
}

/** Bilinear value at a place in mm; beyond the map its nearest value. */
export function fieldAt(map: FieldMap, xMm: number, yMm: number): number {
  const { cellsPerMm, marginMm, widthCells, heightCells, values } = map;
  const u = Math.min(Math.max((xMm + marginMm) * cellsPerMm - 0.5, 0), widthCells - 1.001);
  const v = Math.min(Math.max((yMm + marginMm) * cellsPerMm - 0.5, 0), heightCells - 1.001);
  const column = Math.floor(u);
  const row = Math.floor(v);
  const right = u - column;
  const down = v - row;
  const at = row * widthCells + column;
  const upper = values[at] * (1 - right) + values[at + 1] * right;
  const lower = values[at + widthCells] * (1 - right) + values[at + widthCells + 1] * right;
  return upper * (1 - down) + lower * down;
}
