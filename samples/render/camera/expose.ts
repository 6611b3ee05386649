import { gaussianBlur } from '../blur';
import type { PanelPicture } from '../front-panel';
import { focalLengthPx, type PlaneView } from './plane-view';
import { normal } from './random';
import { type Camera, exposureFactor } from './settings';

type Channels = [Float64Array, Float64Array, Float64Array];

/** Means of square blocks of a plane. */
function blockMeans(plane: Float64Array, width: number, height: number, step: number): Float64Array {
  const columns = Math.ceil(width / step);
  const sums = new Float64Array(columns * Math.ceil(height / step));
  for (let row = 0; row < height; row++) {
    const start = Math.floor(row / step) * columns;
    for (let column = 0; column < width; column++)
      sums[start + Math.floor(column / step)] += plane[row * width + column];
  }
  return sums.map((sum) => sum / (step * step));
}

/** Adds the light that the lens spreads widely: a share of the picture blurred by 6 mm. */
export function withVeil(panel: PanelPicture, share: number): PanelPicture {
  if (share === 0) return panel;
  const { width, height, density } = panel;
  const step = Math.max(1, Math.round(density));
  const [columns, rows] = [Math.ceil(width / step), Math.ceil(height / step)];
  const channels = panel.channels.map((plane) => {
    const wide = gaussianBlur(blockMeans(plane, width, height, step), columns, rows, (6 * density) / step);
    const result = new Float64Array(plane.length);
    for (let row = 0; row < height; row++) {
      const v = Math.min(Math.max((row + 0.5) / step - 0.5, 0), rows - 1.001);
      for (let column = 0; column < width; column++) {
        const u = Math.min(Math.max((column + 0.5) / step - 0.5, 0), columns - 1.001);
        const at = row * width + column;
        result[at] = plane[at] * (1 - share) + share * bilinear(wide, columns, u, v);
      }
    }
    return result;
  }) as Channels;
  return { ...panel, channels };
}

function bilinear(values: Float64Array, width: number, u: number, v: number): number {
  const at = Math.floor(v) * width + Math.floor(u);
  const right = u - Math.floor(u);
  const down = v - Math.floor(v);
  return (
    (values[at] * (1 - right) + values[at + 1] * right) * (1 - down) +
    (values[at + width] * (1 - right) + values[at + width + 1] * right) * down
  );
}

/**
 * Light on the sensor, area-correct: each pixel is the mean of n x n places, n so that no sample of the panel's picture is skipped.
 */
export function onSensor(panel: PanelPicture, view: PlaneView, camera: Camera): Channels {
  const { widthPx, heightPx } = camera;
  const perPixel = (panel.density * camera.pose.framedMm) / widthPx;
  const n = Math.max(2, Math.ceil(perPixel));
  const channels = [0, 1, 2].map(() => new Float64Array(widthPx * heightPx)) as Channels;
  const [red, green, blue] = panel.channels;
  const m = view.panelFromPhoto;
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const at = row * widthPx + column;
      for (let sub = 0; sub < n * n; sub++) {
        const x = column + ((sub % n) + 0.5) / n;
        const y = row + (Math.floor(sub / n) + 0.5) / n;
        const w = m[6] * x + m[7] * y + m[8];
        const xMm = (m[0] * x + m[1] * y + m[2]) / w;
        const yMm = (m[3] * x + m[4] * y + m[5]) / w;
        const u = Math.min(Math.max((xMm - panel.leftMm) * panel.density - 0.5, 0), panel.width - 1.001);
        const v = Math.min(Math.max((yMm - panel.topMm) * panel.density - 0.5, 0), panel.height - 1.001);
        channels[0][at] += bilinear(red, panel.width, u, v);
        channels[1][at] += bilinear(green, panel.width, u, v);
        channels[2][at] += bilinear(blue, panel.width, u, v);
      }
    }
  }
  const scale = exposureFactor(camera) / (n * n);
  return channels.map((plane) => {
    const blurred = gaussianBlur(plane, widthPx, heightPx, camera.blurPx);
    for (let at = 0; at < blurred.length; at++) blurred[at] *= scale * lensFallOff(camera, at);
    return blurred;
  }) as Channels;
}

/** Share of the light that the lens lets through to a pixel: cos^n of its angle from the axis, n = 4 by geometry alone. */
function lensFallOff(camera: Camera, at: number): number {
  const { widthPx, heightPx, shading } = camera;
  if (shading === undefined) return 1;
  const across = (at % widthPx) + 0.5 - widthPx / 2;
  const down = Math.floor(at / widthPx) + 0.5 - heightPx / 2;
  const focalPx = focalLengthPx(camera.focalLength35Mm, widthPx, heightPx);
  return Math.pow(focalPx / Math.hypot(focalPx, across, down), shading);
}

/** Photon and read noise, channel by channel; electrons of a full pixel fall with ISO. */
export function withNoise(channels: Channels, camera: Camera): Channels {
  if (camera.noise === null) return channels;
  const electrons = (camera.noise.fullWell * 100) / camera.iso;
  const readVariance = (camera.noise.readNoise / electrons) ** 2;
  const next = normal(camera.seed);
  return channels.map((plane) => {
    const noisy = new Float64Array(plane.length);
    for (let at = 0; at < plane.length; at++) {
      noisy[at] = plane[at] + next() * Math.sqrt(Math.max(plane[at], 0) / electrons + readVariance);
    }
    return noisy;
  }) as Channels;
}
