import type { Corners, PhotoPoint } from '../../../core/base/points';
import { type Homography, homographyFromCorners, photoPointOf } from '../../../core/window/homography';
import type { Box, Dice } from './dice';

const heightMm = 20;

/** Corners of a turned and leaning window within a box. */
function leaningCorners(d: Dice, [left, top, width, height]: Box): Corners {
  const lean = 0.06;
  const turn = d.between(-0.12, 0.12);
  const [cx, cy] = [left + width / 2, top + height / 2];
  // The turned window fits the box in its height: what the turn adds is taken off.
  const half = [0.46 * width, Math.max(0.28 * height, 0.46 * height - Math.abs(turn) * 0.2 * width)];
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => {
    const x = u * half[0] * (1 + v * d.between(-lean, lean));
    const y = v * half[1] * (1 + u * d.between(-lean, lean));
    return { column: cx + x - 0.4 * turn * y, row: cy + y + 0.4 * turn * x };
  }) as unknown as Corners;
}

export interface LitWindow {
  readonly outline: 'rectangle' | 'ellipse';
  readonly homography: Homography;
  readonly widthMm: number;
  /** Where it and its spill are, px. */
  readonly box: Box;
  /** Light at the dimmest place of the glow. */
  readonly dimmest: number;
  readonly colour: readonly [number, number, number];
  /** Light of the glow and its print; of what spills on the bezel outside. */
  readonly lightAt: (xMm: number, yMm: number) => number;
}

const colours = [
  [1, 0.62, 0.21],
  [1, 0.86, 0.62],
  [0.92, 1, 1.05],
  [0.35, 1, 0.45],
  [0.25, 0.55, 1],
  [1, 0.42, 0.05],
] as const;

/** Distance outside the outline, mm; below 0 inside. */
function distanceOutside(outline: 'rectangle' | 'ellipse', widthMm: number, xMm: number, yMm: number): number {
  if (outline === 'rectangle') return Math.max(-xMm, xMm - widthMm, -yMm, yMm - heightMm);
  const r = Math.hypot((2 * xMm) / widthMm - 1, (2 * yMm) / heightMm - 1);
  return ((r - 1) * Math.min(widthMm, heightMm)) / 2;
}

/** Glow by a few lamps over an even share, printed scale, figures and pointer, spill and a second rim on the bezel. */
export function litWindow(d: Dice, box: Box, outline: 'rectangle' | 'ellipse'): LitWindow {
  const widthMm = outline === 'ellipse' ? heightMm * d.between(0.9, 1.15) : (heightMm * box[2]) / box[3];
  const homography = homographyFromCorners(leaningCorners(d, box), widthMm, heightMm);
  const peak = d.logBetween(0.15, 1.4);
  const even = d.between(0.2, 0.9);
  const lamps = Array.from({ length: 1 + d.upTo(4) }, () => ({
    xMm: d.between(0.05, 0.95) * widthMm,
    yMm: d.between(0, 1.2) * heightMm,
    sizeMm: d.between(3, 16),
    strength: d.between(0.5, 1),
  }));
  const glow = (xMm: number, yMm: number): number => {
    const ofLamps = lamps.map(({ xMm: x, yMm: y, sizeMm, strength }) => {
      return strength * Math.exp(-((xMm - x) ** 2 + (yMm - y) ** 2) / (2 * sizeMm ** 2));
    });
    return peak * (even + (1 - even) * Math.max(...ofLamps));
  };
  const [spill, spillMm] = [d.between(0, 0.15), d.between(0.6, 2)];
  const [rim, rimMm] = d.chance(0.3) ? [d.between(0.1, 0.3), d.between(0.7, 1.4)] : [0, 0];
  const pointerMm = d.chance(0.6) ? d.between(0.1, 0.9) * widthMm : -9;
  const lineMm = d.between(0.25, 0.75) * heightMm;
  const figureMm = d.between(5, 12);
  const printLight = d.between(0.02, 0.3);
  const coverMm = outline === 'ellipse' && d.chance(0.4) ? d.between(0.68, 0.88) * heightMm : heightMm + 99;
  const isPrint = (xMm: number, yMm: number): boolean =>
    Math.abs(xMm - pointerMm) < 0.25 ||
    (Math.abs(yMm - lineMm) < 0.2 && Math.abs(xMm / widthMm - 0.5) < 0.42) ||
    (xMm % figureMm < 1.6 && yMm > lineMm - 4 && yMm < lineMm - 1.5 && (xMm * 3 + yMm * 2) % 2 < 1.2);
  const reachPx = 0.4 * box[3];
  return {
    outline,
    homography,
    widthMm,
    box: [box[0] - reachPx, box[1] - reachPx, box[2] + 2 * reachPx, box[3] + 2 * reachPx],
    dimmest: peak * even,
    colour: d.oneOf(colours),
    lightAt: (xMm, yMm) => {
      const out = distanceOutside(outline, widthMm, xMm, yMm);
      if (out > 6) return 0;
      if (out > 0) return glow(xMm, yMm) * (spill * Math.exp(-out / spillMm) + (Math.abs(out - rimMm) < 0.2 ? rim : 0));
      if (yMm > coverMm) return 0;
      return glow(xMm, yMm) * (isPrint(xMm, yMm) ? printLight : 1);
    },
  };
}

/** The outline in the photo: its corners, or 72 points of its rim, clockwise. */
export function polygonOf({ outline, widthMm, homography }: LitWindow): PhotoPoint[] {
  if (outline === 'ellipse') {
    return Array.from({ length: 72 }, (_, i) =>
      photoPointOf(homography, {
        xMm: (widthMm / 2) * (1 + Math.cos((i * Math.PI) / 36)),
        yMm: (heightMm / 2) * (1 + Math.sin((i * Math.PI) / 36)),
      }),
    );
  }
  return [
    { xMm: 0, yMm: 0 },
    { xMm: widthMm, yMm: 0 },
    { xMm: widthMm, yMm: heightMm },
    { xMm: 0, yMm: heightMm },
  ].map((point) => photoPointOf(homography, point));
}
