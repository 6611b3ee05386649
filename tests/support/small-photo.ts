import path from 'node:path';
import sharp, { type Sharp } from 'sharp';

/** Half the samples' size: 5 pixels a mm of window, read in a third of the time. */
const widthPx = 800;

const reduced = (sample: string): Sharp => sharp(path.resolve('samples/photos', sample)).resize(widthPx);

/** Writes a sample photo, smaller, under a name of its own. */
export async function smallPhoto(sample: string, file: string): Promise<string> {
  await reduced(sample).keepExif().keepIccProfile().jpeg({ quality: 95 }).toFile(file);
  return file;
}

/** The same view with its lamps off: what is left is next to nothing. */
export async function darkPhoto(sample: string, file: string): Promise<string> {
  await reduced(sample).linear(0.01, 2).jpeg({ quality: 95 }).toFile(file);
  return file;
}
