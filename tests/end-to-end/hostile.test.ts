import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AppError } from '../../core/base/errors';
import { createDecoder } from '../../core/node/decode-process';
import { hostileFiles } from '../support/hostile-files';

const folder = mkdtempSync(path.join(tmpdir(), 'evendial-hostile-'));
const scratch = path.join(folder, 'scratch');
mkdirSync(scratch);
const usualTmp = process.env['TMPDIR'];

/** What a bad file may cost. A good one of 200 megapixels may take longer and need more. */
const limits = { timeMs: 10_000, memoryBytes: 1.5 * 2 ** 30 };
let files: ReturnType<typeof hostileFiles>;

beforeAll(async () => {
  process.env['TMPDIR'] = scratch;
  const image = sharp({ create: { width: 600, height: 400, channels: 3, background: { r: 90, g: 70, b: 40 } } });
  files = hostileFiles({
    jpeg: await image.clone().jpeg().toBuffer(),
    progressive: await image.clone().resize(3000, 2000).jpeg({ progressive: true }).toBuffer(),
    tiff: await image.clone().tiff({ compression: 'none' }).toBuffer(),
  });
});

afterAll(() => {
  if (usualTmp === undefined) delete process.env['TMPDIR'];
  else process.env['TMPDIR'] = usualTmp;
  rmSync(folder, { recursive: true });
});

describe('hostile files', () => {
  it('[PX9] bombs and files that lead in circles are refused with what to do, within 10 s and 1.5 GiB', async () => {
    const decoder = createDecoder({ processes: 1, limits });
    const fates: [string, string][] = [];
    for (const [name, bytes] of files) {
      const place = path.join(folder, name);
      writeFileSync(place, bytes);
      const fate = await decoder.decode(place, {}).then(
        () => 'read',
        (error: unknown) => {
          if (!(error instanceof AppError)) throw error;
          expect(error.message).toContain(name);
          expect(error.remedy.length).toBeGreaterThan(20);
          return error.code;
        },
      );
      fates.push([name, fate]);
    }
    await decoder.close();
    expect(fates).toEqual(files.map(([name, , fate]) => [name, fate]));
    expect(readdirSync(scratch)).toEqual([]);
  });

  it('[PX9] a large photo of one colour is no photo, one with some grain is', async () => {
    const decoder = createDecoder({ processes: 1, limits: { pixelsOnTrust: 1e6 } });
    const flat = { create: { width: 4000, height: 3000, channels: 3, background: '#806040' } } as const;
    const grain = { ...flat.create, noise: { type: 'gaussian', mean: 120, sigma: 3 } } as const;
    const placeOf = (name: string): string => path.join(folder, name);
    await sharp(flat).webp({ effort: 0 }).toFile(placeOf('flat.webp'));
    await sharp({ create: grain }).jpeg({ quality: 85 }).toFile(placeOf('grain.jpg'));
    const fateOf = (name: string): Promise<unknown> =>
      decoder.decode(placeOf(name), {}).then(
        ({ facts }) => facts.widthPx,
        (error: unknown) => (error instanceof AppError ? error.code : error),
      );
    expect([await fateOf('flat.webp'), await fateOf('grain.jpg')]).toEqual(['PHOTO_TOO_EMPTY', 4000]);
    await decoder.close();
  });
});
