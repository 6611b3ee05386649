import type { LinearPhoto } from '../../../core/base/linear-photo';
import type { PhotoPoint } from '../../../core/base/points';
import { windowPointOf } from '../../../core/window/homography';
import { drawnPhoto } from '../drawn-photo';
import { type Box, dice, freePlace, heightPx, widthPx } from './dice';
import { type LitWindow, litWindow, polygonOf } from './lit-window';
import { unlitThings } from './unlit-things';

/** A scene made up at random: its photo, and where its lit windows are. */
export interface UnseenScene {
  readonly photo: LinearPhoto;
  /** Each window's outline as a polygon, clockwise. */
  readonly windows: readonly { readonly outline: 'rectangle' | 'ellipse'; readonly polygon: readonly PhotoPoint[] }[];
}

/** @source IEC 61966-2-1: the curve of sRGB and back, with codes of 8 bits between */
function storedInSrgb(light: number): number {
  const clipped = Math.min(1, Math.max(0, light));
  const code = Math.round(255 * (clipped <= 0.0031308 ? 12.92 * clipped : 1.055 * clipped ** (1 / 2.4) - 0.055)) / 255;
  return code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4;
}

/**
 * A front panel in a more or less lit room, with 0 to 3 lit windows and things that are none, as a camera stores it: photon
 * noise, clipping, 8 bits. A window's dimmest place is at least two and a half times as light as plain panel, a knob or a paper at
 * most 2.2 times.
 */
export function unseenScene(seed: number): UnseenScene {
  const d = dice(seed);
  const taken: Box[] = [];
  const windows: LitWindow[] = [];
  for (let i = d.upTo(3); i > 0; i--) {
    const outline = d.chance(0.35) ? 'ellipse' : 'rectangle';
    const short = d.between(60, 150);
    const long = outline === 'ellipse' ? short * d.between(0.95, 1.15) : Math.min(600, short * d.logBetween(1.4, 8));
    const box = freePlace(d, taken, long, short, 0.3 * short);
    if (!box) continue;
    taken.push(box);
    windows.push(litWindow(d, box, outline));
  }
  const dimmest = windows.length > 0 ? Math.min(...windows.map((one) => one.dimmest)) : d.logBetween(0.05, 0.8);
  const unlit = unlitThings(d, taken, dimmest * d.logBetween(0.01, 0.33));
  const noise = d.logBetween(0.002, 0.02);
  const photo = drawnPhoto(
    widthPx,
    heightPx,
    (x, y) => {
      const light = [...unlit(x, y)] as [number, number, number];
      for (const { homography, lightAt, colour, box } of windows) {
        if (x < box[0] || x > box[0] + box[2] || y < box[1] || y > box[1] + box[3]) continue;
        const { xMm, yMm } = windowPointOf(homography, { column: x, row: y });
        const glow = lightAt(xMm, yMm);
        for (let channel = 0; channel < 3; channel++) light[channel] += glow * colour[channel];
      }
      return light;
    },
    0,
    2,
  );
  for (let i = 0; i < photo.rgb.length; i++) {
    const shot = noise * Math.sqrt(Math.max(0, photo.rgb[i])) * d.between(-1.7, 1.7);
    (photo.rgb as Float32Array)[i] = storedInSrgb(photo.rgb[i] + shot);
  }
  return {
    photo,
    windows: windows.map((one) => ({ outline: one.outline, polygon: polygonOf(one) })),
  };
}
