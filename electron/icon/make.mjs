// node electron/icon/make.mjs: draws icon.png from icon.svg; the packager makes the other systems' icons from it.
import { readFile } from 'node:fs/promises';
import { fileURLToPath, URL } from 'node:url';
import sharp from 'sharp';

const folder = new URL('.', import.meta.url);
const drawing = await readFile(new URL('icon.svg', folder));
await sharp(drawing, { density: 144 })
  .resize(1024, 1024)
  .png({ compressionLevel: 9, palette: true })
  .toFile(fileURLToPath(new URL('icon.png', folder)));
