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
  const [left, top] = [Math.floor(u), Math.floor(v)];
  return between(values, width, top * width + left, u - left, v - top);
}

/** Between a cell and its neighbours to the right and below, by the shares that lie there. */
function between(values: Float64Array, width: number, at: number, right: number, down: number): number {
  return (
    (values[at] * (1 - right) + values[at + 1] * right) * (1 - down) +
    (values[at + width] * (1 - right) + values[at + width + 1] * right) * down
  );
}

/** Places across and down a pixel whose mean it is: so many that no sample of the panel's picture is skipped. */
function placesPerPixel(panel: PanelPicture, { pose, widthPx }: Camera): number {
  return Math.max(2, Math.ceil((panel.density * pose.framedMm) / widthPx));
}

/** Light on the sensor, area-correct, and blurred as the camera's lens does; of one exposure, not yet shaded by the lens. */
export function throughLens(panel: PanelPicture, view: PlaneView, camera: Camera): Channels {
  const { widthPx, heightPx } = camera;
  const n = placesPerPixel(panel, camera);
  const sums = [0, 1, 2].map(() => new Float64Array(widthPx * heightPx)) as Channels;
  const [red, green, blue] = panel.channels;
  const m = view.panelFromPhoto;
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const at = row * widthPx + column;
      let reds = 0;
      let greens = 0;
      let blues = 0;
      for (let sub = 0; sub < n * n; sub++) {
        const x = column + ((sub % n) + 0.5) / n;
        const y = row + (Math.floor(sub / n) + 0.5) / n;
        const w = m[6] * x + m[7] * y + m[8];
        const xMm = (m[0] * x + m[1] * y + m[2]) / w;
        const yMm = (m[3] * x + m[4] * y + m[5]) / w;
        const u = Math.min(Math.max((xMm - panel.leftMm) * panel.density - 0.5, 0), panel.width - 1.001);
        const v = Math.min(Math.max((yMm - panel.topMm) * panel.density - 0.5, 0), panel.height - 1.001);
        const left = Math.floor(u);
        const top = Math.floor(v);
        const from = top * panel.width + left;
        reds += between(red, panel.width, from, u - left, v - top);
        greens += between(green, panel.width, from, u - left, v - top);
        blues += between(blue, panel.width, from, u - left, v - top);
      }
      sums[0][at] = reds;
      sums[1][at] = greens;
      sums[2][at] = blues;
    }
  }
  return sums.map((plane) => gaussianBlur(plane, widthPx, heightPx, camera.blurPx)) as Channels;
}

/** What of it the exposure and the lens's corners leave: 1 = full scale. */
export function exposed(blurred: Channels, panel: PanelPicture, camera: Camera): Channels {
  const scale = exposureFactor(camera) / placesPerPixel(panel, camera) ** 2;
  return blurred.map((plane) => plane.map((value, at) => value * (scale * lensFallOff(camera, at)))) as Channels;
}

/**
 * Light on the sensor, area-correct: each pixel is the mean of n x n places, n so that no sample of the panel's picture is skipped.
 */
export function onSensor(panel: PanelPicture, view: PlaneView, camera: Camera): Channels {
  return exposed(throughLens(panel, view, camera), panel, camera);
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
