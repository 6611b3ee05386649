/** Tracing paper behind a scale, with what is printed on it. */
export interface Sheet {
  /** From the sheet to the scale, mm. */
  readonly gapMm: number;
  /** What the print on it lets through at a place of the window, 0..1; left out: clear. */
  readonly transmission?: (xMm: number, yMm: number) => number;
}

/** Cells of the sheet: a gap spreads the light, so that a few are enough for a wide one. */
const cellsPerMmFor = (gapMm: number): number => Math.min(4, Math.max(1.5, 4 / gapMm));
/** So many gaps around a place hold 98.5 % of the light that reaches it. */
const reachInGaps = 8;

/** Into 0..count-1, mirrored at both ends: white walls stand flush with the opening. */
function mirrored(index: number, count: number): number {
  const inPeriod = ((index % (2 * count)) + 2 * count) % (2 * count);
  return inPeriod < count ? inPeriod : 2 * count - 1 - inPeriod;
}

/**
 * Light that a sheet throws on the scale in front of it: each of its places shines by the law of Lambert, so that a share of
 * g^2 / (pi (r^2 + g^2)^2) a square mm arrives at a distance r.
 */
export function acrossGap(
  { gapMm, transmission = () => 1 }: Sheet,
  widthMm: number,
  heightMm: number,
  onSheet: (xMm: number, yMm: number) => number,
): (xMm: number, yMm: number) => number {
  const perMm = cellsPerMmFor(gapMm);
  const [columns, rows] = [Math.round(widthMm * perMm), Math.round(heightMm * perMm)];
  const [cellWide, cellHigh] = [widthMm / columns, heightMm / rows];
  const shines = new Float64Array(columns * rows);
  for (let i = 0; i < shines.length; i++) {
    const [x, y] = [((i % columns) + 0.5) * cellWide, (Math.floor(i / columns) + 0.5) * cellHigh];
    shines[i] = onSheet(x, y) * transmission(x, y);
  }
  const reach = Math.ceil(reachInGaps * gapMm * perMm);
  const weights: number[] = [];
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      weights.push(1 / ((dx * cellWide) ** 2 + (dy * cellHigh) ** 2 + gapMm * gapMm) ** 2);
    }
  }
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const arrives = new Float64Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      let [light, at] = [0, 0];
      for (let dy = -reach; dy <= reach; dy++) {
        const start = mirrored(row + dy, rows) * columns;
        for (let dx = -reach; dx <= reach; dx++)
          light += weights[at++] * shines[start + mirrored(column + dx, columns)];
      }
      arrives[row * columns + column] = light / sum;
    }
  }
  return (xMm, yMm) => {
    const u = Math.min(Math.max(xMm / cellWide - 0.5, 0), columns - 1.001);
    const v = Math.min(Math.max(yMm / cellHigh - 0.5, 0), rows - 1.001);
    const at = Math.floor(v) * columns + Math.floor(u);
    const [right, down] = [u - Math.floor(u), v - Math.floor(v)];
    const upper = arrives[at] * (1 - right) + arrives[at + 1] * right;
    const lower = arrives[at + columns] * (1 - right) + arrives[at + columns + 1] * right;
    return upper * (1 - down) + lower * down;
  };
}
