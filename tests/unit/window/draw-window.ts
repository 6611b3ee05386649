import { createMask, createPlane, type Mask } from '../../../core/base/plane';
import type { RectifiedWindow } from '../../../core/window/rectified';

/** A straight stroke of print: from (x1, y1) to (x2, y2) mm, `widthMm` wide, letting through `transmits` of R, G, B. */
export interface Stroke {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly widthMm: number;
  readonly transmits: readonly [number, number, number];
}

export const darkInk = [0.03, 0.03, 0.03] as const;
export const redInk = [0.75, 0.12, 0.1] as const;

/** Fixed-seed normal noise (sum of 12 uniforms). */
function noiseOf(seed: number): () => number {
  let state = seed;
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) {
      state = (state * 48271) % 2147483647;
      sum += state / 2147483647;
    }
    return sum;
  };
}

/** Normal distribution function, logistic form (error below 0.01, which no test here feels). */
function normalShare(z: number): number {
  return 1 / (1 + Math.exp(-1.702 * z));
}

function distanceTo({ x1, y1, x2, y2 }: Stroke, x: number, y: number): number {
  const length2 = (x2 - x1) ** 2 + (y2 - y1) ** 2;
  const share = length2 > 0 ? Math.min(1, Math.max(0, ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / length2)) : 0;
  return Math.hypot(x - x1 - share * (x2 - x1), y - y1 - share * (y2 - y1));
}

/** How much of a place a stroke covers when its edges are blurred. */
function coverOf(stroke: Stroke, x: number, y: number, blurMm: number): number {
  const reach = stroke.widthMm / 2 + 5 * blurMm;
  if (x < Math.min(stroke.x1, stroke.x2) - reach || x > Math.max(stroke.x1, stroke.x2) + reach) return 0;
  if (y < Math.min(stroke.y1, stroke.y2) - reach || y > Math.max(stroke.y1, stroke.y2) + reach) return 0;
  const distance = distanceTo(stroke, x, y);
  return normalShare((stroke.widthMm / 2 - distance) / blurMm) - normalShare((-stroke.widthMm / 2 - distance) / blurMm);
}

export interface Scene {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Relative light at a place. */
  readonly light: (xMm: number, yMm: number) => number;
  readonly strokes?: readonly Stroke[];
  readonly blurMm?: number;
  /** Standard deviation of the noise, as a share of the light. */
  readonly noise?: number;
  readonly colour?: readonly [number, number, number];
}

/** Draws a straightened window at 10 cells a mm with amber light, as a camera of good resolution would see it. */
export function drawWindow(scene: Scene): RectifiedWindow {
  const { widthMm, heightMm, light, strokes = [], blurMm = 0.05, noise = 0, colour = [0.8, 0.44, 0.12] } = scene;
  const width = Math.ceil(widthMm * 10 - 1e-6);
  const height = Math.ceil(heightMm * 10 - 1e-6);
  const planes = [0, 1, 2].map(() => createPlane(width, height));
  const random = noiseOf(4711);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const x = (column + 0.5) / 10;
      const y = (row + 0.5) / 10;
      const here = light(x, y);
      const through = [1, 1, 1];
      let most = 0;
      for (const stroke of strokes) {
        const cover = coverOf(stroke, x, y, blurMm);
        if (cover <= most) continue;
        most = cover;
        for (let c = 0; c < 3; c++) through[c] = 1 - cover * (1 - stroke.transmits[c]);
      }
      for (let c = 0; c < 3; c++) {
        planes[c].values[row * width + column] = here * through[c] * colour[c] * (1 + (noise ? noise * random() : 0));
      }
    }
  }
  const none = createMask(width, height);
  return {
    pxPerMm: 10,
    widthMm,
    heightMm,
    red: planes[0],
    green: planes[1],
    blue: planes[2],
    redClipped: none,
    greenClipped: none,
    blueClipped: none,
    outsideGamut: none,
  };
}

/** The cells whose centre lies on a stroke widened by `growMm` to either side. */
export function strokeMask(window: RectifiedWindow, strokes: readonly Stroke[], growMm = 0): Mask {
  const mask = createMask(window.red.width, window.red.height);
  for (let i = 0; i < mask.values.length; i++) {
    const x = ((i % mask.width) + 0.5) / 10;
    const y = (Math.floor(i / mask.width) + 0.5) / 10;
    if (strokes.some((stroke) => distanceTo(stroke, x, y) <= stroke.widthMm / 2 + growMm)) mask.values[i] = 1;
  }
  return mask;
}

const segmentsOf: Record<string, string> = {
  '0': 'abcdef',
  '1': 'bc',
  '2': 'abged',
  '3': 'abgcd',
  '5': 'afgcd',
  '7': 'abc',
};

/** A figure of seven straight strokes, 1.6 x 2.6 mm, its top left at (x, y). */
function figureStrokes(figure: string, x: number, y: number, transmits: Stroke['transmits']): Stroke[] {
  const places: Record<string, readonly [number, number, number, number]> = {
    a: [0, 0, 1.6, 0],
    b: [1.6, 0, 1.6, 1.3],
    c: [1.6, 1.3, 1.6, 2.6],
    d: [0, 2.6, 1.6, 2.6],
    e: [0, 1.3, 0, 2.6],
    f: [0, 0, 0, 1.3],
    g: [0, 1.3, 1.6, 1.3],
  };
  return [...segmentsOf[figure]].map((segment) => {
    const [x1, y1, x2, y2] = places[segment];
    return { x1: x + x1, y1: y + y1, x2: x + x2, y2: y + y2, widthMm: 0.4, transmits };
  });
}

/** An invented scale for a 60 x 25 mm window: ticks, figures, two large letters; a red bar and a red figure. */
export function scalePrint(): { dark: Stroke[]; red: Stroke[] } {
  const dark: Stroke[] = [];
  for (let i = 0; i < 11; i++) {
    const x = 6 + i * 4.8;
    dark.push({ x1: x, y1: 8, x2: x, y2: 8 + (i % 5 === 0 ? 4 : 2.5), widthMm: 0.35, transmits: darkInk });
  }
  ['20', '10', '5', '3', '0'].forEach((number, i) => {
    [...number].forEach((figure, k) => dark.push(...figureStrokes(figure, 6 + i * 9 + k * 2.4, 3.6, darkInk)));
  });
  dark.push({ x1: 26, y1: 17, x2: 27.5, y2: 21, widthMm: 0.5, transmits: darkInk });
  dark.push({ x1: 27.5, y1: 21, x2: 29, y2: 17, widthMm: 0.5, transmits: darkInk });
  dark.push({ x1: 30.5, y1: 17, x2: 30.5, y2: 21, widthMm: 0.5, transmits: darkInk });
  const red: Stroke[] = [{ x1: 42.5, y1: 13.5, x2: 55.5, y2: 13.5, widthMm: 1, transmits: redInk }];
  red.push(...figureStrokes('3', 52, 16.5, redInk), ...figureStrokes('7', 55, 16.5, redInk));
  return { dark, red };
}

/** A bright round spot on even light. */
export function spotLight(ratio: number, sigmaMm: number, x0: number, y0: number): Scene['light'] {
  return (x, y) => 0.5 * (1 + (ratio - 1) * Math.exp(-((x - x0) ** 2 + (y - y0) ** 2) / (2 * sigmaMm * sigmaMm)));
}

/** Light that rises by `ratio` from left to right. */
export function rampLight(ratio: number, widthMm: number): Scene['light'] {
  return (x) => 0.5 * Math.exp(Math.log(ratio) * (x / widthMm));
}
