// Puts the demonstration's pictures together for the README: the window, its luminance, and what the eye sees of it.
// Run by `npm run pictures`, after the demonstration.
import path from 'node:path';
import sharp from 'sharp';

const tries = ['reference', 'Bare_warm-white_LEDs__8_mm_behind'];
const kinds = ['window', 'luminance', 'unevenness'];
const columnPx = 780;
const gapPx = 8;

async function column(name) {
  const pictures = await Promise.all(
    kinds.map((kind) =>
      sharp(path.join('out', 't60', `${name}.${kind}.png`))
        .resize({ width: columnPx })
        .png()
        .toBuffer({ resolveWithObject: true }),
    ),
  );
  return pictures.map(({ data, info }) => ({ data, height: info.height }));
}

const columns = await Promise.all(tries.map(column));
const heights = kinds.map((_, row) => Math.max(...columns.map((one) => one[row].height)));
const layers = columns.flatMap((one, i) =>
  one.map(({ data }, row) => ({
    input: data,
    left: i * (columnPx + gapPx),
    top: heights.slice(0, row).reduce((sum, height) => sum + height, 0),
  })),
);
const width = tries.length * columnPx + (tries.length - 1) * gapPx;
const height = heights.reduce((sum, one) => sum + one, 0);
await sharp({ create: { width, height, channels: 3, background: '#202020' } })
  .composite(layers)
  .png({ palette: true, quality: 95, compressionLevel: 9 })
  .toFile(path.join('samples', 'pictures', 'readme.png'));
