import { blueClipped, greenClipped, redClipped, type LinearPhoto } from '../base/linear-photo';
import type { PhotoPoint } from '../base/points';
import { xyzFromLinearSrgb } from '../colour/spaces';
import type { WitnessPatch } from '../contract/measure';
import { isInPolygon } from '../window/polygon';

/** JPEG and the sensor's mosaic make neighbours alike: so many pixels count as one sample. @source our own choice */
const pixelsASample = 16;
/** Fewer pixels say little. @source our own choice */
const fewestPixels = 64;
/** More clipped, and the patch no longer tells how bright it was. @source as for the glow */
const mostClipped = 0.005;

/**
 * Mean light of a patch of the photo that did not change from photo to photo: a window still on its filament, or paper
 * under a steady lamp.
 *
 * The patch is taken as it is in the photo: the room's light belongs to it, and is not subtracted.
 *
 * @param photo    a region that holds the patch; not altered
 * @param polygon  upright photo pixels, as one goes around it
 * @returns XYZ, Y = 1 at full scale, and the relative standard uncertainty of the mean; or a clause that says why not
 * @source mean and its standard uncertainty: JCGM 100; pixels that count as one sample: our own choice
 * @rule CP4
 */
export function measureWitness(photo: LinearPhoto, polygon: readonly PhotoPoint[]): WitnessPatch | string {
  const { region, rgb, flags } = photo;
  const points = polygon.map(({ column, row }) => ({ xMm: column, yMm: row }));
  const outside = polygon.some(
    ({ column, row }) => column < 0 || row < 0 || column > photo.widthPx || row > photo.heightPx,
  );
  if (outside) return 'the witness patch reaches beyond the photo';
  const sums = [0, 0, 0];
  let [count, squares, clipped] = [0, 0, 0];
  for (let row = 0, pixel = 0; row < region.height; row++) {
    for (let column = 0; column < region.width; column++, pixel++) {
      if (!isInPolygon(points, region.column + column + 0.5, region.row + row + 0.5)) continue;
      count += 1;
      if (flags[pixel] & (redClipped | greenClipped | blueClipped)) clipped += 1;
      for (let channel = 0; channel < 3; channel++) sums[channel] += rgb[3 * pixel + channel];
      squares += rgb[3 * pixel + 1] ** 2;
    }
  }
  if (count < fewestPixels) return `the witness patch has fewer than ${fewestPixels} pixels`;
  if (clipped / count > mostClipped) return 'the witness patch is overexposed';
  const [red, green, blue] = sums.map((sum) => sum / count);
  const xyz = xyzFromLinearSrgb([red, green, blue]);
  if (!(xyz[1] > 0 && green > 0)) return 'the witness patch is black';
  const deviation = Math.sqrt(Math.max(0, squares / count - green * green)) / green;
  return { xyz, relUncertainty: deviation / Math.sqrt(Math.max(1, count / pixelsASample)) };
}
