import type { WindowPoint } from '../../base/points';
import { cosDeg, sinDeg } from '../../colour/deterministic-angle';
import type { WindowSpec } from '../../contract/measure';
import { type Homography, photoPointOf } from '../../window/homography';
import { isInPolygon } from '../../window/polygon';

const ellipseStepDeg = 2;

/** Points of the window's rim; what a cover hides is left out. */
function rimPoints({ shape, widthMm, heightMm }: Pick<WindowSpec, 'shape' | 'widthMm' | 'heightMm'>): WindowPoint[] {
  if (shape.kind === 'polygon') return [...shape.pointsMm];
  if (shape.kind === 'rectangle') {
    return [
      { xMm: 0, yMm: 0 },
      { xMm: widthMm, yMm: 0 },
      { xMm: widthMm, yMm: heightMm },
      { xMm: 0, yMm: heightMm },
    ];
  }
  const [a, b] = [widthMm / 2, heightMm / 2];
  const onEllipse = Array.from({ length: 360 / ellipseStepDeg }, (_, i) => ({
    xMm: a + a * cosDeg(i * ellipseStepDeg),
    yMm: b + b * sinDeg(i * ellipseStepDeg),
  }));
  const cut = shape.cutMm;
  if (!cut) return onEllipse;
  const isInEllipse = ({ xMm, yMm }: WindowPoint): boolean => ((xMm - a) / a) ** 2 + ((yMm - b) / b) ** 2 <= 1;
  return [...onEllipse.filter(({ xMm, yMm }) => isInPolygon(cut, xMm, yMm)), ...cut.filter(isInEllipse)];
}

/**
 * How far the window's outline stays from the photo's edge, px; 0 or less when it touches or leaves the photo.
 *
 * Of a rectangle or polygon the nearest corner counts, which is exact; of an ellipse the nearest of 180 points, at most
 * 0.02 % of its width too far.
 *
 * @param spec  the window; not altered
 * @param photo upright size of the whole photo, px
 * @returns Infinity when nothing of the outline is left by its cut
 * @source geometry; own calculation
 * @rule CK4
 */
export function frameDistancePx(
  spec: Pick<WindowSpec, 'shape' | 'widthMm' | 'heightMm'>,
  homography: Homography,
  photo: { readonly widthPx: number; readonly heightPx: number },
): number {
  const distances = rimPoints(spec).map((point) => {
    const { column, row } = photoPointOf(homography, point);
    return Math.min(column, photo.widthPx - column, row, photo.heightPx - row);
  });
  return Math.min(...distances);
}
