import type { LinearPart, PhotoRegion, ScreenPixels } from '../../contract/bench';
import { AppError } from '../../base/errors';
import type { EnginePorts } from '../../engine';
import { meanLight, screenCodes } from '../../photo/area-means';
import type { DecodedPhoto } from '../../photo/decoded-photo';
import { partOf } from '../../photo/reduced';
import type { EngineTasks } from './messages';

type DecodePort = Pick<EnginePorts, 'decodePhoto'>;

/** The decoder cuts a region to the photo; one that lies beside it is a mistake of whoever asks. */
async function decodeRegion(
  photo: EngineTasks['pixels']['asks']['photo'],
  region: PhotoRegion | null,
  ports: DecodePort,
): Promise<DecodedPhoto> {
  const decoded = await ports.decodePhoto(photo.path, { regionPx: region });
  const { widthPx, heightPx } = decoded.facts;
  if (region && (region.column >= widthPx || region.row >= heightPx)) {
    const message = `the region at ${region.column}, ${region.row} lies beside ${photo.file} (${widthPx} x ${heightPx} px)`;
    throw new AppError('usage', 'REGION_OUTSIDE', message, 'Ask for a region inside the photo.');
  }
  return decoded;
}

/**
 * The photo, or a region of it cut to the photo, for a screen; as many pixels as it has, or as `mostSidePx` lets through.
 * One pixel of the answer covers region width / width photo pixels exactly, and the same downwards.
 *
 * @rule BE2
 */
export async function screenPixels(asks: EngineTasks['pixels']['asks'], ports: DecodePort): Promise<ScreenPixels> {
  const decoded = await decodeRegion(asks.photo, asks.region, ports);
  const { region, facts } = decoded;
  const shrink = Math.min(1, asks.mostSidePx / Math.max(region.width, region.height));
  const [width, height] = [region.width, region.height].map((side) => Math.max(1, Math.round(side * shrink)));
  const light = meanLight(decoded, asks.photo.encoding, width, height);
  const rgba = screenCodes(light);
  return { width, height, rgba, photoWidthPx: facts.widthPx, photoHeightPx: facts.heightPx };
}

/**
 * Linear light of a region cut to the photo, and further, by fewer than `reducedBy` pixels at its right and lower end, to
 * whole blocks; `reducedBy` is the smallest whole number that leaves at most `mostPixels`.
 *
 * @rule BE2
 */
export async function linearPart(asks: EngineTasks['linear']['asks'], ports: DecodePort): Promise<LinearPart> {
  const decoded = await decodeRegion(asks.photo, asks.region, ports);
  const { region } = decoded;
  const least = Math.ceil(Math.sqrt((region.width * region.height) / asks.mostPixels));
  const reducedBy = Math.max(1, Math.min(least, region.width, region.height));
  const [width, height] = [region.width, region.height].map((side) => Math.floor(side / reducedBy));
  const whole = { ...region, width: width * reducedBy, height: height * reducedBy };
  const { rgb } = meanLight(partOf(decoded, whole), asks.photo.encoding, width, height);
  return { region: whole, reducedBy, width, height, rgb };
}
