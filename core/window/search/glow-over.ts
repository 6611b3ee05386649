import type { PhotoPoint } from '../../base/points';
import { percentilesOf } from '../../base/stats';
import { turnOf } from './hull';
import type { LightAt } from './light-grid';

/** What an outline lies in: the photo's size, and other lit windows nearby, which tell nothing about the room's light. */
export interface Surroundings {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Their corners, clockwise. */
  readonly litBeside?: readonly (readonly PhotoPoint[])[];
}

/** The surroundings are a frame from 10 to 45 % of the window's shorter side outside it. */
const frameShares = [0.1, 0.17, 0.28, 0.45];
/** How far the surroundings reach, as a share of the shorter side. */
export const frameReachShare = frameShares[frameShares.length - 1];
/** Samples across the window each way. */
const insideSamples = 15;
/** Darkness: below that light counts as nothing, so that ratios stay finite. */
export const darkness = 0.0003;

/** A place by its shares of the way across and down a four-sided outline; below 0 and above 1 it lies outside. */
function bilinear(corners: readonly PhotoPoint[], u: number, v: number): PhotoPoint {
  const [a, b, c, d] = corners;
  const mix = (pick: (p: PhotoPoint) => number): number =>
    (1 - v) * ((1 - u) * pick(a) + u * pick(b)) + v * ((1 - u) * pick(d) + u * pick(c));
  return { column: mix((p) => p.column), row: mix((p) => p.row) };
}

function lightInside(lightAt: LightAt, corners: readonly PhotoPoint[]): number[] {
  const light: number[] = [];
  for (let i = 0; i < insideSamples; i++) {
    for (let j = 0; j < insideSamples; j++) {
      // 0.15..0.85: within the inscribed ellipse but for its ends.
      const at = bilinear(corners, 0.15 + (0.7 * i) / (insideSamples - 1), 0.15 + (0.7 * j) / (insideSamples - 1));
      light.push(lightAt(at.column, at.row) + darkness);
    }
  }
  return light;
}

/** The window's own light: print, a pointer and a cover over half of it leave at least three tenths of it. */
const ownPercent = 70;
/** Bright surroundings: above that percentile of them. */
const brightPercent = 95;

/**
 * ln of the window's own light over the bright part of what surrounds it: tells a lit window from a lit wall, cheaply.
 *
 * @param corners       clockwise
 * @param surroundings  lit windows in it do not count
 * @source our own choice
 * @rule WN17
 */
export function glowOver(
  lightAt: LightAt,
  corners: readonly PhotoPoint[],
  surroundings: Surroundings,
): { over: number; ownLight: number } {
  const sides = sidesOf(corners);
  const [ownLight] = percentilesOf(lightInside(lightAt, corners), [ownPercent]);
  const [around] = percentilesOf(lightAround(lightAt, corners, Math.min(...sides), sides, surroundings), [
    brightPercent,
  ]);
  return { over: Math.log(ownLight / around), ownLight };
}

/** Upper and left side, px. */
export function sidesOf([a, b, , d]: readonly PhotoPoint[]): [number, number] {
  return [Math.hypot(b.column - a.column, b.row - a.row), Math.hypot(d.column - a.column, d.row - a.row)];
}

/** Light that spills on the bezel reaches so far, as a share of the shorter side. */
const spillShare = 0.2;

/** Whether a place lies in a lit window or its spill. */
function isLit(corners: readonly PhotoPoint[], place: PhotoPoint): boolean {
  const spillPx = spillShare * Math.min(...sidesOf(corners));
  return corners.every((corner, i) => {
    const next = corners[(i + 1) % corners.length];
    const lengthPx = Math.hypot(next.column - corner.column, next.row - corner.row);
    return turnOf(corner, next, place) >= -spillPx * lengthPx;
  });
}

function lightAround(
  lightAt: LightAt,
  corners: readonly PhotoPoint[],
  shortSidePx: number,
  sides: readonly [number, number],
  surroundings: Surroundings,
): number[] {
  const { widthPx, heightPx, litBeside = [] } = surroundings;
  const light: number[] = [];
  for (const share of frameShares) {
    const marginU = (share * shortSidePx) / sides[0];
    const marginV = (share * shortSidePx) / sides[1];
    for (let i = 0; i < 24; i++) {
      const along = (i + 0.5) / 24;
      const places = [
        bilinear(corners, -marginU + along * (1 + 2 * marginU), -marginV),
        bilinear(corners, -marginU + along * (1 + 2 * marginU), 1 + marginV),
        bilinear(corners, -marginU, -marginV + along * (1 + 2 * marginV)),
        bilinear(corners, 1 + marginU, -marginV + along * (1 + 2 * marginV)),
      ];
      for (const { column, row } of places) {
        if (column < 0 || row < 0 || column > widthPx || row > heightPx) continue;
        if (litBeside.some((window) => isLit(window, { column, row }))) continue;
        light.push(lightAt(column, row) + darkness);
      }
    }
  }
  return light;
}
