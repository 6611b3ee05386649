import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { AppError } from '../../core/base/errors';
import { createDecoder, type PhotoDecoder } from '../../core/node/decode-process';
import { linearisePhoto } from '../../core/photo/linearise';
import { smallHeic } from '../support/hostile-files';
import { mutantOf } from '../support/mutants';
import { isLongRun } from '../support/long-run';

const mutants = isLongRun ? 5000 : 500;
const folder = mkdtempSync(path.join(tmpdir(), 'evendial-mutants-'));
const scratch = path.join(folder, 'scratch');
mkdirSync(scratch);
const usualTmp = process.env['TMPDIR'];

afterAll(() => {
  if (usualTmp === undefined) delete process.env['TMPDIR'];
  else process.env['TMPDIR'] = usualTmp;
  rmSync(folder, { recursive: true });
});

/** A small good file of each kind, GIF too, which is known and not read. */
async function goodFiles(): Promise<Readonly<Record<string, Buffer>>> {
  const ramp = Uint8Array.from({ length: 24 * 16 * 3 }, (_, i) => (7 * i + (i % 3) * 40) % 251);
  const image = sharp(ramp, { raw: { width: 24, height: 16, channels: 3 } }).withMetadata({ orientation: 6 });
  return {
    jpeg: await image.clone().jpeg().toBuffer(),
    'progressive jpeg': await image.clone().jpeg({ progressive: true }).toBuffer(),
    png: await image.clone().png().toBuffer(),
    'tiff with strips': await image.clone().tiff({ compression: 'lzw' }).toBuffer(),
    'tiff with tiles': await image
      .clone()
      .tiff({ compression: 'deflate', tile: true, tileWidth: 16, tileHeight: 16 })
      .toBuffer(),
    webp: await image.clone().webp().toBuffer(),
    avif: await image.clone().avif({ effort: 0 }).toBuffer(),
    heic: smallHeic,
    gif: await image.clone().gif().toBuffer(),
  };
}

/** 'read' or the refusal's code; anything else that is thrown is a defect, and names the mutant. */
async function fateOf(decoder: PhotoDecoder, place: string): Promise<string> {
  try {
    const decoded = await decoder.decode(place, {});
    const { codes, linear, facts } = decoded;
    expect((codes ?? linear)!.length).toBe(3 * facts.widthPx * facts.heightPx);
    // Notes and profiles that survived must serve for light.
    const light = linearisePhoto(decoded, 'profile', false);
    expect(light.rgb.length).toBe(3 * facts.widthPx * facts.heightPx);
    return 'read';
  } catch (error) {
    if (!(error instanceof AppError)) throw new Error(`${path.basename(place)}: ${String(error)}`, { cause: error });
    expect(error.kind).toBe('photo');
    expect(error.remedy.length).toBeGreaterThan(20);
    return error.code;
  }
}

describe('mutants', () => {
  it(
    `[PX9] ${mutants} damaged files of all kinds are read, or refused with what to do`,
    async () => {
      process.env['TMPDIR'] = scratch;
      const files = Object.entries(await goodFiles());
      const decoder = createDecoder({ processes: 2, limits: { timeMs: 10_000, memoryBytes: 1.5 * 2 ** 30 } });
      const fates = new Map<string, Map<string, number>>(files.map(([kind]) => [kind, new Map<string, number>()]));
      const lane = async (first: number): Promise<void> => {
        for (let number = first; number < mutants; number += 2) {
          const [kind, bytes] = files[number % files.length];
          const place = path.join(folder, `mutant ${number} of ${kind}`);
          writeFileSync(place, mutantOf(bytes, number));
          const fate = await fateOf(decoder, place);
          rmSync(place);
          const counts = fates.get(kind)!;
          counts.set(fate, (counts.get(fate) ?? 0) + 1);
        }
      };
      await Promise.all([lane(0), lane(1)]);
      await decoder.close();
      if (isLongRun)
        console.log(JSON.stringify([...fates].map(([kind, counts]) => [kind, Object.fromEntries(counts)])));
      for (const [kind, counts] of fates) {
        const seen = [...counts.keys()];
        expect(seen, kind).not.toContain('PHOTO_TOO_SLOW');
        expect(seen, kind).not.toContain('PHOTO_MEMORY');
        // Both ends of each kind: some damage is survived, some is told.
        if (kind === 'gif') expect(seen).toEqual(['PHOTO_FORMAT_UNSUPPORTED']);
        else expect(seen, kind).toEqual(expect.arrayContaining(['read', 'PHOTO_DAMAGED']));
      }
      expect(readdirSync(scratch)).toEqual([]);
    },
    isLongRun ? 1_200_000 : 120_000,
  );
});
