import type { Corners, PhotoPoint } from '../../core/base/points';
import { homographyFromCorners, photoPointOf, windowPointOf } from '../../core/window/homography';
import type { Drawing } from './drawn-photo';
import { seededRandom } from './seeded-random';

/** A lit window of a drawn scene. */
export interface DrawnWindow {
  readonly outline: 'rectangle' | 'ellipse';
  /** Its lit rim in the photo, clockwise: four corners, or places around the face. */
  readonly rim: readonly PhotoPoint[];
}

export interface Scene {
  readonly windows: readonly DrawnWindow[];
  readonly drawing: Drawing;
  readonly noise: number;
}

export const [sceneWidthPx, sceneHeightPx] = [600, 420];
const rimPlaces = 64;

type Between = (from: number, to: number) => number;
/** Part of the frame that a window may fill, px. */
interface Slot {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Slots side by side or above each other, so that windows never touch. */
function slotsOf(count: number, isRow: boolean): Slot[] {
  const [width, height] = isRow ? [sceneWidthPx / count, sceneHeightPx] : [sceneWidthPx, sceneHeightPx / count];
  return Array.from({ length: count }, (_, i) => ({
    left: isRow ? i * width : 0,
    top: isRow ? 0 : i * height,
    width,
    height,
  }));
}

/** Corners of a w x h box in a slot, turned by up to 7 degrees, each corner then moved by up to 5 % for perspective. */
function placed(slot: Slot, aspect: number, between: Between): Corners {
  const room = { width: 0.78 * slot.width, height: 0.68 * slot.height };
  const height = Math.min(room.height, room.width / aspect) * between(0.8, 1);
  const width = height * aspect;
  const [x, y] = [
    slot.left + slot.width / 2 + between(-0.5, 0.5) * (room.width - width) * 0.6,
    slot.top + slot.height / 2 + between(-0.5, 0.5) * (room.height - height) * 0.6,
  ];
  const slope = Math.min(0.12, (0.1 * slot.height) / width);
  const turn = between(-slope, slope);
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => {
    const [across, down] = [
      (u * width) / 2 + 0.05 * between(-1, 1) * height,
      (v * height) / 2 + 0.05 * between(-1, 1) * height,
    ];
    return { column: x + across - turn * down, row: y + down + turn * across };
  }) as unknown as Corners;
}

interface Painted extends DrawnWindow {
  /** Light at a place of the photo; null outside the window. */
  readonly light: (point: PhotoPoint) => number | null;
}

/** Glow with dark ends and hot spots over -1..1 both ways, with figures, a scale line and a pointer on it. */
function glowOf(level: number, aspect: number, between: Between): (u: number, v: number) => number {
  const spots = Array.from({ length: Math.floor(between(1, 4)) }, () => ({
    u: between(-0.7, 0.7),
    v: between(-0.5, 0.5),
    size: between(0.1, 0.4),
    height: between(0.1, 0.8),
  }));
  const [ends, pointer, pitch, line] = [between(0, 0.6), between(-0.8, 0.8), between(0.15, 0.3), between(0.2, 0.6)];
  return (u, v) => {
    const hot = spots.reduce((sum, spot) => {
      const away = (((u - spot.u) * aspect) ** 2 + (v - spot.v) ** 2) / spot.size ** 2;
      return sum + spot.height * Math.exp(-away);
    }, 0);
    const place = (((u + 1) % pitch) + pitch) % pitch;
    const isFigure = place < 0.4 * pitch && v > -0.5 && v < -0.1 && Math.abs(u) < 0.8;
    const isLine = Math.abs(v - line) < 0.03 && Math.abs(u) < 0.85;
    const isPointer = Math.abs(u - pointer) < 0.012;
    const print = isFigure || isLine || isPointer ? 0.04 : 1;
    return level * (1 - ends * u * u + hot) * print;
  };
}

function windowIn(slot: Slot, level: number, between: Between): Painted {
  const isRound = between(0, 1) < 0.4;
  const aspect = isRound ? between(0.9, 1.25) : between(1.3, Math.min(7, slot.width / 70));
  const corners = placed(slot, aspect, between);
  const homography = homographyFromCorners(corners, 2, 2);
  const glow = glowOf(level, aspect, between);
  /** Below that the face lies behind a cover. */
  const cover = isRound && between(0, 1) < 0.4 ? between(0.2, 0.5) : 2;
  const rim = Array.from({ length: rimPlaces }, (_, i) => {
    const angle = (2 * Math.PI * i) / rimPlaces;
    return photoPointOf(homography, { xMm: 1 + Math.cos(angle), yMm: 1 + Math.sin(angle) });
  });
  return {
    outline: isRound ? 'ellipse' : 'rectangle',
    rim: isRound ? rim : corners,
    light: (point) => {
      const { xMm, yMm } = windowPointOf(homography, point);
      const [u, v] = [xMm - 1, yMm - 1];
      const isInside = isRound ? u * u + v * v < 1 : Math.abs(u) < 1 && Math.abs(v) < 1;
      if (!isInside) return null;
      return v > cover ? 0 : glow(u, v);
    },
  };
}

/** Light of the front about the windows: a slope of room light, a strip of trim and knobs that shine in it. */
function frontOf(room: number, between: Between): (x: number, y: number) => number {
  const [slopeX, slopeY] = [between(-0.4, 0.4), between(-0.4, 0.4)];
  const [trimY, trimShine] = [between(0, sceneHeightPx), between(1.2, 2)];
  const knobs = Array.from({ length: Math.floor(between(0, 4)) }, () => ({
    x: between(0, sceneWidthPx),
    y: between(0, sceneHeightPx),
    radius: between(8, 26),
    shine: between(0.4, 2),
  }));
  return (x, y) => {
    const slope = 1 + slopeX * (x / sceneWidthPx - 0.5) + slopeY * (y / sceneHeightPx - 0.5);
    const knob = knobs.find((one) => Math.hypot(x - one.x, y - one.y) < one.radius);
    const isTrim = Math.abs(y - trimY) < 3;
    return room * slope * (knob ? knob.shine : isTrim ? trimShine : 1);
  };
}

/**
 * A front with one to three lit windows, all of it by chance.
 *
 * Rectangles of 1.3 to 7 times their height and round faces, some behind a cover; perspective, print, hot spots, dark ends,
 * noise, knobs and trim. The front has up to an eighth of the windows' light, its brightest trim and knobs up to a quarter.
 */
export function randomScene(seed: number): Scene {
  const random = seededRandom(seed);
  const between: Between = (from, to) => from + (to - from) * random();
  // The first numbers of neighbouring seeds are alike.
  for (let i = 0; i < 10; i++) random();
  const level = between(0.12, 0.4);
  const count = Math.floor(between(1, 3.99));
  const windows = slotsOf(count, between(0, 1) < 0.5).map((slot) => windowIn(slot, level, between));
  const front = frontOf(level * between(0.01, 0.12), between);
  const [green, blue] = [between(0.5, 1), between(0.15, 1)];
  return {
    windows,
    noise: between(0.0002, 0.006),
    drawing: (column, row) => {
      for (const { light } of windows) {
        const own = light({ column, row });
        if (own !== null) return [own, green * own, blue * own];
      }
      const light = front(column, row);
      return [light, 0.9 * light, 0.8 * light];
    },
  };
}
