import { createMask, type Mask } from '../base/plane';
import type { OutlineShape } from '../contract/outline';
import { checkPolygon, polygonMask } from './polygon';
import { cellsAcross } from './rectify';

/** Slack against rounding where the outline lies exactly on a cell's border, mm. */
const slackMm = 1e-9;
/** Tangents per quarter of the ellipse: leaves it by less than 0.0001 mm at 200 mm width. */
const tangentsPerQuarter = 720;

/** A convex outline's extent at a height, mm; from > to where the outline does not reach. */
type ExtentAt = (yMm: number) => { readonly from: number; readonly to: number };

/**
 * How much of the outline's rim is cut off before glow counts: 1.0 mm, at most 8 % of the window's shorter side.
 *
 * The bezel's shadow and the corners' error lie there.
 *
 * @returns mm
 * @source our own choice
 * @rule WN10
 */
export function borderMm(widthMm: number, heightMm: number): number {
  return Math.min(1, 0.08 * Math.min(widthMm, heightMm));
}

function rectangleExtent(widthMm: number, heightMm: number, erodeMm: number): ExtentAt {
  return (yMm) =>
    yMm < erodeMm - slackMm || yMm > heightMm - erodeMm + slackMm
      ? { from: Infinity, to: -Infinity }
      : { from: erodeMm, to: widthMm - erodeMm };
}

/**
 * The inscribed ellipse, shrunk by true distance. A convex area shrunk by e is what lies at least e inside of each
 * tangent: n . p <= sqrt(a^2 nx^2 + b^2 ny^2) - e for every unit direction n (a, b half axes, p from the centre).
 * Directions are taken by the rational half-angle form, which needs no sine or cosine.
 */
function ellipseExtent(widthMm: number, heightMm: number, erodeMm: number): ExtentAt {
  const a = widthMm / 2;
  const b = heightMm / 2;
  return (yMm) => {
    const offY = Math.abs(yMm - b);
    if (offY > b - erodeMm + slackMm) return { from: Infinity, to: -Infinity };
    let halfWidth = Infinity;
    for (let i = 0; i < tangentsPerQuarter; i++) {
      const t = i / tangentsPerQuarter;
      const nx = (1 - t * t) / (1 + t * t);
      const ny = (2 * t) / (1 + t * t);
      const reach = Math.sqrt(a * a * nx * nx + b * b * ny * ny) - erodeMm;
      halfWidth = Math.min(halfWidth, (reach - ny * offY) / nx);
    }
    return { from: a - halfWidth, to: a + halfWidth };
  };
}

/** Fills the cells of a convex outline, row by row. */
function fillConvex(mask: Mask, pxPerMm: number, rule: 'whole' | 'centre', extentAt: ExtentAt): void {
  for (let row = 0; row < mask.height; row++) {
    const heights = rule === 'centre' ? [row + 0.5] : [row, row + 1];
    const extents = heights.map((height) => extentAt(height / pxPerMm));
    const from = Math.max(...extents.map((extent) => extent.from)) - slackMm;
    const to = Math.min(...extents.map((extent) => extent.to)) + slackMm;
    for (let column = 0; column < mask.width; column++) {
      const left = (rule === 'centre' ? column + 0.5 : column) / pxPerMm;
      const right = (rule === 'centre' ? column + 0.5 : column + 1) / pxPerMm;
      if (left >= from && right <= to) mask.values[row * mask.width + column] = 1;
    }
  }
}

/** Clears what the other mask does not have. */
function intersect(mask: Mask, other: Mask): void {
  for (let i = 0; i < mask.values.length; i++) mask.values[i] &= other.values[i];
}

/**
 * Which cells lie in the window's outline, shrunk by `erodeMm` measured straight from its rim.
 *
 * The ellipse is the one inscribed in the window's box; with `cutMm` the glow must also lie in that polygon, whose
 * sides are shrunk too, as a cover's edge throws a shadow like a bezel.
 *
 * @param erodeMm  0 or more; see `borderMm`
 * @param rule     'whole': the whole cell lies inside (glow); 'centre': its centre does (print search)
 * @returns 1 = inside, on the grid of `RectifiedWindow`
 * @throws AppError of kind 'usage' for polygons that cannot be meant (see `checkPolygon`)
 * @source our own choice (geometry); ellipse accurate to 0.001 mm
 * @rule WN11
 */
export function outlineMask(
  shape: OutlineShape,
  widthMm: number,
  heightMm: number,
  pxPerMm: number,
  erodeMm: number,
  rule: 'whole' | 'centre',
): Mask {
  if (shape.kind === 'polygon') {
    checkPolygon(shape.pointsMm, widthMm, heightMm);
    return polygonMask(shape.pointsMm, widthMm, heightMm, pxPerMm, rule, erodeMm);
  }
  const mask = createMask(cellsAcross(widthMm, pxPerMm), cellsAcross(heightMm, pxPerMm));
  const extentAt = shape.kind === 'rectangle' ? rectangleExtent : ellipseExtent;
  fillConvex(mask, pxPerMm, rule, extentAt(widthMm, heightMm, erodeMm));
  if (shape.kind === 'ellipse' && shape.cutMm) {
    checkPolygon(shape.cutMm, widthMm, heightMm);
    intersect(mask, polygonMask(shape.cutMm, widthMm, heightMm, pxPerMm, rule, erodeMm));
  }
  return mask;
}
