import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import sharp from 'sharp';
import type { Corners } from '../../core/base/points';

export interface LargePhoto {
  readonly file: string;
  readonly megapixels: number;
  readonly corners: Corners;
}

interface TruthFile {
  readonly windows: readonly { readonly cornersPx: readonly (readonly [number, number])[] }[];
}

/** Noise of +-6 codes, so that the JPEG costs what a camera's file costs to decode. */
function addGrain(codes: Buffer): void {
  let state = 12345;
  for (let i = 0; i < codes.length; i++) {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    codes[i] = Math.min(255, Math.max(0, codes[i] + ((state >>> 24) % 13) - 6));
  }
}

/** A sample photo made as large as a camera's, with its corners. */
export async function writeLargePhoto(
  sample: string,
  folder: string,
  widthPx: number,
  heightPx: number,
): Promise<LargePhoto> {
  const truth = JSON.parse(await readFile(`${sample}.truth.json`, 'utf8')) as TruthFile;
  const { width, height } = await sharp(sample).metadata();
  const { data } = await sharp(sample)
    .resize(widthPx, heightPx, { fit: 'fill', kernel: 'cubic' })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  addGrain(data);
  const file = path.join(folder, `${widthPx}x${heightPx}.jpg`);
  const raw = { width: widthPx, height: heightPx, channels: 3 } as const;
  await writeFile(file, await sharp(data, { raw }).jpeg({ quality: 90 }).toBuffer());
  const corners = truth.windows[0].cornersPx.map(([column, row]) => ({
    column: (column * widthPx) / width,
    row: (row * heightPx) / height,
  })) as unknown as Corners;
  return { file, megapixels: (widthPx * heightPx) / 1e6, corners };
}
