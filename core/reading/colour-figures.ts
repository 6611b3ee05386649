import { createPlane, type Plane } from '../base/plane';
import { uv1976FromXyz, xyFromXyz, type Uv1976 } from '../colour/chromaticity';
import type { Chromaticity } from '../colour/constants';
import type { Triple } from '../colour/matrix3';
import { xyzFromLinearSrgb } from '../colour/spaces';
import { uvDistance } from '../colour/steps';
import { colourTemperatureOf } from '../colour/temperature';
import type { GlowMap } from './glow-map';

/** The colour of the glow. */
export interface ColourFigures {
  /** Mean over the glow, as relative as the photo's light. */
  readonly xyz: Triple;
  readonly xy: Chromaticity;
  readonly uv: Uv1976;
  /** K; null for |Duv| above 0.05, or outside 1000..20 000 K. Of the glow, not of the lamp: the window may be dyed. */
  readonly cctK: number | null;
  /** CIE 1960; positive = above the locus, greenish. */
  readonly duv: number;
  /** Root mean square distance of 2 mm cells from the mean, u'v'; null with fewer than two cells. */
  readonly spreadUv: number | null;
  /** Change of u'v' per 10 mm where it changes fastest; null with fewer than three cells, or all in a line. */
  readonly gradientUvPer10Mm: number | null;
}

/** A 2 mm cell: its glow's mean place and chromaticity. */
interface ColourCell extends Uv1976 {
  readonly xMm: number;
  readonly yMm: number;
}

const colourCellMm = 2;
/** A 2 mm cell counts when so much of it is glow. */
const leastCellShare = 0.25;

/** Linear sRGB of the map's cell. */
const rgbAt = (map: GlowMap, cell: number): Triple => [
  map.red.values[cell],
  map.green.values[cell],
  map.blue.values[cell],
];

/** Sums of light and places over a set of cells. */
class LightSum {
  private readonly rgb: [number, number, number] = [0, 0, 0];
  private column = 0;
  private row = 0;
  cells = 0;

  add(rgb: Triple, column: number, row: number): void {
    for (let c = 0; c < 3; c++) this.rgb[c] += rgb[c];
    this.column += column + 0.5;
    this.row += row + 0.5;
    this.cells += 1;
  }

  /** Mean XYZ: the matrix is linear, so it may follow the sum. */
  meanXyz(): Triple {
    const [red, green, blue] = this.rgb;
    return xyzFromLinearSrgb([red / this.cells, green / this.cells, blue / this.cells]);
  }

  placeMm(pxPerMm: number): { xMm: number; yMm: number } {
    return { xMm: this.column / this.cells / pxPerMm, yMm: this.row / this.cells / pxPerMm };
  }
}

/** The whole glow's sum, and that of each 2 mm cell counted from the window's corner. */
function sumLight(map: GlowMap): { whole: LightSum; cells: ColourCell[] } {
  const { glow, pxPerMm } = map;
  const across = Math.round(colourCellMm * pxPerMm);
  const perRow = Math.ceil(glow.width / across);
  const whole = new LightSum();
  const sums = new Map<number, LightSum>();
  for (let i = 0; i < glow.values.length; i++) {
    if (!glow.values[i]) continue;
    const row = Math.floor(i / glow.width);
    const column = i - row * glow.width;
    const key = Math.floor(row / across) * perRow + Math.floor(column / across);
    const sum = sums.get(key) ?? new LightSum();
    sums.set(key, sum);
    for (const part of [whole, sum]) part.add(rgbAt(map, i), column, row);
  }
  const cells: ColourCell[] = [];
  for (const sum of sums.values()) {
    const uv = uv1976FromXyz(sum.meanXyz());
    if (sum.cells < leastCellShare * across * across || !Number.isFinite(uv.uPrime)) continue;
    cells.push({ ...sum.placeMm(pxPerMm), ...uv });
  }
  return { whole, cells };
}

function spreadOf(cells: readonly ColourCell[], mean: Uv1976): number | null {
  if (cells.length < 2) return null;
  const sum = cells.reduce((total, cell) => total + uvDistance(cell, mean) ** 2, 0);
  return Math.sqrt(sum / cells.length);
}

/** Slopes along x and y of the plane of least squares through the cells; null when the places do not span a plane. */
function planeSlopes(cells: readonly ColourCell[], valueOf: (cell: ColourCell) => number): [number, number] | null {
  const mean = (of: (cell: ColourCell) => number): number =>
    cells.reduce((sum, cell) => sum + of(cell), 0) / cells.length;
  const x0 = mean((cell) => cell.xMm);
  const y0 = mean((cell) => cell.yMm);
  const xx = mean((cell) => (cell.xMm - x0) ** 2);
  const yy = mean((cell) => (cell.yMm - y0) ** 2);
  const xy = mean((cell) => (cell.xMm - x0) * (cell.yMm - y0));
  const xv = mean((cell) => (cell.xMm - x0) * valueOf(cell));
  const yv = mean((cell) => (cell.yMm - y0) * valueOf(cell));
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-6 * xx * yy) || xx * yy === 0) return null;
  return [(xv * yy - yv * xy) / determinant, (yv * xx - xv * xy) / determinant];
}

/** Largest change of (u', v') a mm over all directions: the larger singular value of the slopes. */
function gradientOf(cells: readonly ColourCell[]): number | null {
  const ofU = cells.length < 3 ? null : planeSlopes(cells, (cell) => cell.uPrime);
  const ofV = cells.length < 3 ? null : planeSlopes(cells, (cell) => cell.vPrime);
  if (!ofU || !ofV) return null;
  const squares = ofU[0] ** 2 + ofU[1] ** 2 + ofV[0] ** 2 + ofV[1] ** 2;
  const determinant = ofU[0] * ofV[1] - ofU[1] * ofV[0];
  const root = Math.sqrt(Math.max(0, squares * squares - 4 * determinant * determinant));
  return Math.sqrt((squares + root) / 2);
}

/**
 * The colour of the glow: chromaticity of its summed light, colour temperature, spread and gradient.
 *
 * Mean XYZ over the glow's cells, so bright places weigh more, as in the eye. Spread and gradient from 2 mm cells of which a
 * quarter or more is glow; the gradient is the plane of least squares through u' and v', in its steepest direction.
 *
 * @param map  linear light; not altered
 * @returns null when there is no glow, or no light in it
 * @source CIE 15:2004 for chromaticity and the limit of Duv; cells and gradient: our own choice
 * @rule CF1, CF2, CF3
 */
export function colourFigures(map: GlowMap): ColourFigures | null {
  const { whole, cells } = sumLight(map);
  if (whole.cells === 0) return null;
  const xyz = whole.meanXyz();
  const uv = uv1976FromXyz(xyz);
  const temperature = colourTemperatureOf(uv);
  if (!(xyz[1] > 0) || !temperature) return null;
  const gradientPerMm = gradientOf(cells);
  return {
    xyz,
    xy: xyFromXyz(xyz),
    uv,
    cctK: temperature.cctK,
    duv: temperature.duv,
    spreadUv: spreadOf(cells, uv),
    gradientUvPer10Mm: gradientPerMm === null ? null : 10 * gradientPerMm,
  };
}

/**
 * u' and v' of every cell of the glow, NaN elsewhere and where a cell has no light.
 *
 * @param map  not altered
 * @source CIE 15:2004, 8.1
 * @rule CF4
 */
export function chromaticityPlanes(map: GlowMap): { readonly uPrime: Plane; readonly vPrime: Plane } {
  const { width, height, values } = map.glow;
  const uPrime = createPlane(width, height, NaN);
  const vPrime = createPlane(width, height, NaN);
  for (let i = 0; i < values.length; i++) {
    if (!values[i]) continue;
    const xyz = xyzFromLinearSrgb(rgbAt(map, i));
    if (!(xyz[1] > 0)) continue;
    const uv = uv1976FromXyz(xyz);
    uPrime.values[i] = uv.uPrime;
    vPrime.values[i] = uv.vPrime;
  }
  return { uPrime, vPrime };
}
