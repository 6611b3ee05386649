import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp, { type Exif, type Sharp } from 'sharp';
import type { Camera } from '../camera/settings';
import { matrixProfile } from './matrix-profile';

/** A number as EXIF's ratio of whole numbers. */
function ratio(value: number): string {
  if (value < 0.3) return `1/${Math.round(1 / value)}`;
  return `${Math.round(value * 10)}/10`;
}

/** The invented camera: make, model and how it was set; white balance set by hand. */
function exifOf(camera: Camera): Exif {
  const [date] = camera.takenAt.split('.');
  const actualFocalLengthMm = camera.focalLength35Mm / 1.5;
  return {
    IFD0: { Make: 'Brindle', Model: camera.colour === 'colorimetric' ? 'Q2 Measure' : 'Q2', DateTime: date },
    IFD2: {
      ExposureTime: ratio(camera.exposureS),
      FNumber: ratio(camera.fNumber),
      ISOSpeedRatings: String(camera.iso),
      DateTimeOriginal: date,
      FocalLength: ratio(actualFocalLengthMm),
      FocalLengthIn35mmFilm: String(camera.focalLength35Mm),
      WhiteBalance: '1',
      ExposureMode: '1',
      ColorSpace: camera.colourSpace === 'srgb' && camera.response.kind !== 'linear' ? '1' : '65535',
    },
  };
}

/** Codes are upright; the file holds them as a camera turned by its orientation would. */
function stored(image: Sharp, camera: Camera): Sharp {
  return camera.orientation === 6 ? image.rotate(270) : image;
}

/** The bytes of the photo file. */
export async function photoBytes(codes: Uint8Array | Uint16Array, camera: Camera): Promise<Buffer> {
  const size = { width: camera.widthPx, height: camera.heightPx, channels: 3 as const };
  let image = stored(sharp(codes, { raw: size }), camera);
  if (codes instanceof Uint16Array) image = image.toColourspace('rgb16');
  image = image.withExif(exifOf(camera)).withMetadata({ orientation: camera.orientation });
  const folder = await mkdtemp(join(tmpdir(), 'evendial-sample-'));
  try {
    if (camera.profile) {
      const linear = camera.response.kind === 'linear';
      const path = join(folder, 'profile.icc');
      await writeFile(path, matrixProfile(camera.colourSpace, linear));
      image = image.withIccProfile(path, { attach: true });
    }
    return await asFile(image, camera).toBuffer();
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function asFile(image: Sharp, camera: Camera): Sharp {
  const { file } = camera;
  if (file.kind === 'jpeg') {
    return image.jpeg({ quality: file.quality, chromaSubsampling: file.fullColour ? '4:4:4' : '4:2:0' });
  }
  if (file.kind === 'png') return image.png({ compressionLevel: 9, adaptiveFiltering: true });
  return image.tiff({ compression: 'deflate', predictor: 'horizontal' });
}
