import type { LinearPhoto } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import type { OutlineShape } from '../../../core/contract/outline';
import { registrationImageOf, type RegistrationImage } from '../../../core/registration/registration-image';
import { homographyFromCorners, photoPointOf, windowPointOf } from '../../../core/window/homography';
import { outlineMask } from '../../../core/window/outline';
import { drawnPhoto } from '../../support/drawn-photo';
import { seededRandom } from '../../support/seeded-random';

export const widthMm = 60;
export const heightMm = 18;

/** A straight bar of print: its box, mm, and the light that it lets through. */
interface Bar {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly high: number;
  readonly lets: number;
}

/** An invented scale: ticks, a line, and figures of bars that no two places share. */
export function barsOf(seed: number): Bar[] {
  const random = seededRandom(seed);
  const bars: Bar[] = [{ x: 4, y: 9, wide: 52, high: 0.4, lets: 0.05 }];
  for (let i = 0; i < 21; i++)
    bars.push({ x: 5 + 2.45 * i, y: 9, wide: 0.35, high: 1.6 + (i % 5 ? 0 : 1.2), lets: 0.05 });
  for (let i = 0; i < 44; i++) {
    const lying = random() < 0.5;
    const [wide, high] = lying ? [0.8 + 1.6 * random(), 0.45] : [0.45, 0.8 + 1.6 * random()];
    const y = i % 2 ? 2 + 4 * random() : 12.5 + 2 * random();
    bars.push({ x: 4 + 49 * random(), y, wide, high, lets: i % 7 ? 0.04 : 0.3 });
  }
  return bars;
}

export type Light = (xMm: number, yMm: number) => number;

export const lights: Readonly<Record<string, Light>> = {
  even: () => 0.4,
  'one spot': (x, y) => 0.25 + 0.45 * Math.exp(-((x - 20) ** 2 + (y - 11) ** 2) / 30),
  'a lamp in the corner': (x, y) => 0.06 + 0.7 / (1 + ((x - 56) ** 2 + (y - 3) ** 2) / 90),
  'three spots': (x, y) =>
    [9, 31, 52].reduce((sum, at) => sum + 0.3 * Math.exp(-((x - at) ** 2 + (y - 9) ** 2) / 12), 0.2),
};

/** Two ways of standing before the window, about 10 photo px a mm. */
export const poses: readonly Corners[] = [
  [
    [60.3, 40.2],
    [668.9, 52.4],
    [661.2, 238.8],
    [55.1, 231.5],
  ],
  [
    [41.7, 62.8],
    [655.4, 38.3],
    [671.6, 220.1],
    [52.9, 249.7],
  ],
].map((corners) => corners.map(([column, row]) => ({ column, row })) as unknown as Corners);

/** A photo of the window: light behind print, a dark front about it, noise of 1 % of full scale. */
export function drawScale(corners: Corners, light: Light, bars: readonly Bar[]): LinearPhoto {
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  // The bars that reach into each mm of width.
  const nearby = Array.from({ length: widthMm }, (_, mm) => bars.filter(({ x, wide }) => x < mm + 1 && x + wide >= mm));
  return drawnPhoto(
    720,
    290,
    (column, row) => {
      const { xMm, yMm } = windowPointOf(homography, { column, row });
      if (xMm < 0 || yMm < 0 || xMm > widthMm || yMm > heightMm) return [0.004, 0.003, 0.002];
      let lets = 1;
      for (const { x, y, wide, high, lets: own } of nearby[Math.min(59, Math.floor(xMm))]) {
        if (xMm >= x && xMm <= x + wide && yMm >= y && yMm <= y + high) lets = Math.min(lets, own);
      }
      const here = lets * light(xMm, yMm);
      return [here, 0.62 * here, 0.2 * here];
    },
    0.01,
  );
}

export function imageOf(photo: LinearPhoto, corners: Corners): RegistrationImage {
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  return registrationImageOf(photo, { homography, widthMm, heightMm, shape: { kind: 'rectangle' }, kind: 'dark' });
}

/** Corners off by `px` along and across, each in a direction of its own. */
export function movedCorners(corners: Corners, px: number, seed: number): Corners {
  const random = seededRandom(seed);
  const step = (): number => (random() < 0.5 ? -px : px);
  return corners.map(({ column, row }) => ({ column: column + step(), row: row + step() })) as unknown as Corners;
}

/** rms over a grid of places in the outline: how far those of the corners lie from where they truly are, mm. */
export function placeError(
  corners: Corners,
  truth: Corners,
  size = { widthMm, heightMm },
  shape: OutlineShape = { kind: 'rectangle' },
): number {
  const [homography, truly] = [corners, truth].map((one) => homographyFromCorners(one, size.widthMm, size.heightMm));
  const outline = outlineMask(shape, size.widthMm, size.heightMm, 1, 0, 'centre');
  let [count, sum] = [0, 0];
  outline.values.forEach((inside, i) => {
    if (!inside) return;
    const [xMm, yMm] = [(i % outline.width) + 0.5, Math.floor(i / outline.width) + 0.5];
    const place = windowPointOf(truly, photoPointOf(homography, { xMm, yMm }));
    sum += (place.xMm - xMm) ** 2 + (place.yMm - yMm) ** 2;
    count++;
  });
  return Math.sqrt(sum / count);
}
