import sharp from 'sharp';

/** Corners of the lit scale in the photo. */
export const scaleCorners: [number, number][] = [
  [50, 30],
  [510, 30],
  [510, 120],
  [50, 120],
];

/** A small lit scale, 92 x 18 mm, brighter in the middle. @param lamp  0: lamps off */
export async function scalePhoto(peak: number, lamp = 130): Promise<Buffer> {
  const [width, height] = [560, 150];
  const pixels = Buffer.alloc(width * height * 3, 2);
  for (let row = 30; row < 120; row++) {
    for (let column = 50; column < 510; column++) {
      const light = lamp === 0 ? 8 : lamp + peak * Math.exp(-((column - 280) ** 2) / 15000);
      const grain = ((column * 7 + row * 13) % 5) - 2;
      [1, 0.86, 0.62].forEach((share, k) => (pixels[3 * (row * width + column) + k] = light * share + grain));
    }
  }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .png()
    .toBuffer();
}
