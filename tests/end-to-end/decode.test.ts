import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { crc32, deflateSync } from 'node:zlib';
import sharp, { type Raw } from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { AppError } from '../../core/base/errors';
import { defaultPhotoLimits } from '../../core/node/decode/photo-limits';
import { createDecoder, type DecoderOptions } from '../../core/node/decode-process';
import { seededNumbers } from '../unit/photo/draw-decoded';

const folder = mkdtempSync(path.join(tmpdir(), 'evendial-decode-test-'));
/** The decoder's own folders go here, so that what it leaves behind can be seen. */
const scratch = path.join(folder, 'scratch');
mkdirSync(scratch);
const usualTmp = process.env['TMPDIR'];
process.env['TMPDIR'] = scratch;

const decoder = createDecoder();

afterAll(async () => {
  await decoder.close();
  if (usualTmp === undefined) delete process.env['TMPDIR'];
  else process.env['TMPDIR'] = usualTmp;
  rmSync(folder, { recursive: true, force: true });
});

function fileOf(name: string, bytes: Uint8Array): string {
  const place = path.join(folder, name);
  writeFileSync(place, bytes);
  return place;
}

/** Codes from a fixed start; every channel of every pixel its own. */
function randomCodes<T extends Uint8Array | Uint16Array>(codes: T, most: number, seed: number): T {
  const next = seededNumbers(seed);
  for (let i = 0; i < codes.length; i++) codes[i] = Math.floor(next() * (most + 1));
  return codes;
}

const raw = (width: number, height: number, channels: 1 | 2 | 3 | 4): { raw: Raw } => ({
  raw: { width, height, channels },
});

async function refusalOf(place: string, options: DecoderOptions): Promise<AppError> {
  const limited = createDecoder(options);
  try {
    const error: unknown = await limited.decode(place, {}).then(
      () => new Error('it was read'),
      (reason: unknown) => reason,
    );
    if (!(error instanceof AppError)) throw error;
    return error;
  } finally {
    await limited.close();
  }
}

/** Process numbers of decoding children of this test run that are alive; Linux only. */
function livingChildren(): number[] {
  const alive: number[] = [];
  for (const entry of readdirSync('/proc')) {
    if (!/^\d+$/.test(entry)) continue;
    try {
      const parent = Number(/\) \S (\d+)/.exec(readFileSync(`/proc/${entry}/stat`, 'utf8'))?.[1]);
      const command = readFileSync(`/proc/${entry}/cmdline`, 'utf8');
      if (parent === process.pid && command.includes('decode-child')) alive.push(Number(entry));
    } catch (error) {
      // It ended while we looked.
      if (!['ENOENT', 'ESRCH'].includes((error as NodeJS.ErrnoException).code ?? '')) throw error;
    }
  }
  return alive;
}

/** Running, and not only waiting for somebody to ask how it ended. */
function isAlive(pid: number): boolean {
  if (!existsSync(`/proc/${pid}/stat`)) return false;
  return /\) ([A-Z]) /.exec(readFileSync(`/proc/${pid}/stat`, 'utf8'))?.[1] !== 'Z';
}

describe('codes', () => {
  it.each([
    ['png', 'png', 3],
    ['tiff', 'tiff', 3],
    ['png with transparency', 'png', 4],
    ['tiff with transparency', 'tiff', 4],
  ] as const)('[PX1] 16 bits of a %s are exact', async (title, format, channels) => {
    const codes = randomCodes(new Uint16Array(37 * 19 * channels), 65535, 31);
    const image = sharp(codes, { raw: { width: 37, height: 19, channels } }).toColourspace('rgb16');
    const bytes = format === 'png' ? await image.png().toBuffer() : await image.tiff({ compression: 'lzw' }).toBuffer();
    const decoded = await decoder.decode(fileOf(`${title}16`, bytes), {});
    expect(decoded.facts).toMatchObject({ widthPx: 37, heightPx: 19, bitDepth: 16, format });
    const expected = codes.filter((_, i) => channels === 3 || i % 4 < 3);
    expect(decoded.codes).toEqual(expected);
  });

  it('[PX1] grey with transparency becomes three alike channels', async () => {
    const codes = randomCodes(new Uint8Array(11 * 7 * 2), 255, 32);
    const bytes = await sharp(codes, raw(11, 7, 2))
      .toColourspace('b-w')
      .png()
      .toBuffer();
    const decoded = await decoder.decode(fileOf('grey.png', bytes), {});
    expect([...decoded.codes!]).toEqual(Array.from({ length: 11 * 7 * 3 }, (_, i) => codes[2 * Math.floor(i / 3)]));
  });

  it('[PX1] a palette of 2 bits a pixel keeps its colours', async () => {
    const colours = Uint8Array.of(3, 250, 17, 201, 44, 90, 120, 121, 122, 7, 8, 255);
    // 6 x 2 pixels, four to a byte, each row with its filter byte before it.
    const rows = Uint8Array.of(0, 0b00_01_10_11, 0b11_00_0000, 0, 0b10_10_01_00, 0b01_11_0000);
    const places = [0, 1, 2, 3, 3, 0, 2, 2, 1, 0, 1, 3];
    const header = Uint8Array.of(0, 0, 0, 6, 0, 0, 0, 2, 2, 3, 0, 0, 0);
    const bytes = Buffer.concat([
      Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
      pngChunk('IHDR', header),
      pngChunk('PLTE', colours),
      pngChunk('IDAT', deflateSync(rows)),
      pngChunk('IEND', new Uint8Array(0)),
    ]);
    const { codes, facts } = await decoder.decode(fileOf('palette.png', bytes), {});
    expect(facts.bitDepth).toBe(2);
    expect([...codes!]).toEqual(places.flatMap((place) => [...colours.subarray(3 * place, 3 * place + 3)]));
  });
});

function pngChunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const chunk = Buffer.alloc(body.length + 8);
  chunk.writeUInt32BE(data.length, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), body.length + 4);
  return chunk;
}

describe('orientation and region', () => {
  const width = 13;
  const height = 8;
  const codes = randomCodes(new Uint8Array(width * height * 3), 99, 33);
  // Upright column and row of the bright pixel that is stored at column 2, row 5. @source Exif 2.32, tag 274
  const brightAt = [
    [1, 2, 5],
    [2, 10, 5],
    [3, 10, 2],
    [4, 2, 2],
    [5, 5, 2],
    [6, 2, 2],
    [7, 2, 10],
    [8, 5, 10],
  ] as const;
  codes.set([251, 252, 253], 3 * (5 * width + 2));

  async function turnedPng(orientation: number): Promise<Uint8Array> {
    return sharp(codes, raw(width, height, 3))
      .withMetadata({ orientation })
      .png()
      .toBuffer();
  }

  it.each(brightAt)(
    '[PX8] orientation %i: the bright pixel stands at column %i, row %i',
    async (orientation, column, row) => {
      const place = fileOf(`turned${orientation}.png`, await turnedPng(orientation));
      const { facts, codes: upright } = await decoder.decode(place, {});
      expect([facts.widthPx, facts.heightPx]).toEqual(orientation >= 5 ? [height, width] : [width, height]);
      const at = 3 * (row * facts.widthPx + column);
      expect([...upright!.slice(at, at + 3)]).toEqual([251, 252, 253]);
      expect(upright!.filter((code) => code > 99).length).toBe(3);
      const cut = await decoder.decode(place, { regionPx: { column: column - 1, row: row - 2, width: 3, height: 4 } });
      expect(cut.region).toEqual({ column: column - 1, row: row - 2, width: 3, height: 4 });
      for (let r = 0; r < 4; r++) {
        const from = 3 * ((row - 2 + r) * facts.widthPx + column - 1);
        expect(cut.codes!.slice(9 * r, 9 * r + 9)).toEqual(upright!.slice(from, from + 9));
      }
    },
  );

  it('[PX8] a region is cut to the photo, and is never empty', async () => {
    const place = fileOf('turned6.png', await turnedPng(6));
    const regionOf = async (column: number, row: number, w: number, h: number): Promise<unknown> =>
      (await decoder.decode(place, { regionPx: { column, row, width: w, height: h } })).region;
    expect(await regionOf(-4, -5, 7, 9)).toEqual({ column: 0, row: 0, width: 3, height: 4 });
    expect(await regionOf(6, 11, 50, 60)).toEqual({ column: 6, row: 11, width: 2, height: 2 });
    expect(await regionOf(500, -60, 4, 3)).toEqual({ column: 7, row: 0, width: 1, height: 1 });
  });
});

describe('limits', () => {
  const small = randomCodes(new Uint8Array(40 * 30 * 3), 255, 34);

  it('[PX9] bytes, pixels (16 bits count twice), and files that are none', async () => {
    const png = fileOf(
      'small.png',
      await sharp(small, raw(40, 30, 3))
        .png()
        .toBuffer(),
    );
    const wide = fileOf(
      'wide.png',
      await sharp(
        Uint16Array.from(small, (code) => code * 257),
        raw(40, 30, 3),
      )
        .toColourspace('rgb16')
        .png()
        .toBuffer(),
    );
    expect((await refusalOf(png, { limits: { fileBytes: 100 } })).code).toBe('PHOTO_TOO_LARGE');
    expect((await refusalOf(png, { limits: { pixels: 1199 } })).code).toBe('PHOTO_TOO_LARGE');
    expect((await refusalOf(wide, { limits: { pixels: 2399 } })).code).toBe('PHOTO_TOO_LARGE');
    const roomy = createDecoder({ limits: { pixels: 1200 } });
    expect((await roomy.decode(png, {})).facts.widthPx).toBe(40);
    await roomy.close();
    expect((await refusalOf(path.join(folder, 'nowhere.jpg'), {})).code).toBe('PHOTO_MISSING');
    expect((await refusalOf(scratch, {})).code).toBe('PHOTO_UNREADABLE');
    expect((await refusalOf(fileOf('empty.jpg', new Uint8Array(0)), {})).code).toBe('PHOTO_EMPTY');
  });

  it.skipIf(process.platform === 'win32')('[PX9] a pipe that nobody writes to is refused, not waited for', async () => {
    const pipe = path.join(folder, 'pipe.jpg');
    execFileSync('mkfifo', [pipe]);
    expect((await refusalOf(pipe, {})).code).toBe('PHOTO_UNREADABLE');
  });

  it('[PX9] too slow and too hungry are told apart, and the next photo is read all the same', async () => {
    const large = fileOf('large.jpg', await largeJpeg());
    expect((await refusalOf(large, { limits: { timeMs: 60 } })).code).toBe('PHOTO_TOO_SLOW');
    if (process.platform === 'linux') {
      expect((await refusalOf(large, { limits: { memoryBytes: 60 * 2 ** 20 } })).code).toBe('PHOTO_MEMORY');
    }
    const limited = createDecoder({ processes: 1, limits: { timeMs: 1500, pixels: 40e6 } });
    await expect(limited.decode(large, {})).rejects.toMatchObject({ code: 'PHOTO_TOO_LARGE' });
    const png = fileOf(
      'after.png',
      await sharp(small, raw(40, 30, 3))
        .png()
        .toBuffer(),
    );
    expect((await limited.decode(png, {})).codes).toEqual(small);
    await limited.close();
  });
});

let large: Promise<Uint8Array> | undefined;
/** 48 megapixels of noise that is coarse enough to be written quickly. */
function largeJpeg(): Promise<Uint8Array> {
  large ??= sharp(randomCodes(new Uint8Array(1000 * 750 * 3), 255, 35), raw(1000, 750, 3))
    .resize(8000, 6000, { kernel: 'nearest' })
    .jpeg({ quality: 80 })
    .toBuffer();
  return large;
}

describe('cancelling and closing', () => {
  it('[PX10] an aborted decode of 48 megapixels returns within half a second, and the next is read', async () => {
    const place = fileOf('large.jpg', await largeJpeg());
    const small = fileOf(
      'tiny.png',
      await sharp(Uint8Array.of(5, 6, 7), raw(1, 1, 3))
        .png()
        .toBuffer(),
    );
    await decoder.decode(small, {});
    const aborting = new AbortController();
    const decoding = decoder.decode(place, {}, aborting.signal);
    await new Promise((resolve) => setTimeout(resolve, 120));
    const abortedAt = performance.now();
    aborting.abort();
    await expect(decoding).rejects.toMatchObject({ kind: 'cancelled', code: 'DECODE_CANCELLED' });
    expect(performance.now() - abortedAt).toBeLessThan(500);
    expect([...(await decoder.decode(small, {})).codes!]).toEqual([5, 6, 7]);
    const already = decoder.decode(small, {}, AbortSignal.abort());
    await expect(already).rejects.toMatchObject({ code: 'DECODE_CANCELLED' });
  });

  it.skipIf(process.platform !== 'linux')(
    '[PX10] closing in the middle of a decode leaves no process and no file',
    async () => {
      const place = fileOf('large.jpg', await largeJpeg());
      await decoder.close();
      const closing = createDecoder({ processes: 2 });
      const ends = [1, 2, 3].map(() =>
        closing.decode(place, {}).then(
          () => 'read',
          (error: AppError) => error.code,
        ),
      );
      await new Promise((resolve) => setTimeout(resolve, 150));
      expect(livingChildren().length).toBe(2);
      const started = performance.now();
      await closing.close();
      expect(performance.now() - started).toBeLessThan(2500);
      expect(await Promise.all(ends)).toEqual(['DECODE_CANCELLED', 'DECODE_CANCELLED', 'DECODE_CANCELLED']);
      expect(livingChildren()).toEqual([]);
      expect(readdirSync(scratch)).toEqual([]);
      const hasty = createDecoder({ processes: 1 });
      const end = hasty.decode(place, {}).catch((error: AppError) => error.code);
      await hasty.close();
      expect(await end).toBe('DECODE_CANCELLED');
      expect(livingChildren()).toEqual([]);
      expect(readdirSync(scratch)).toEqual([]);
    },
  );

  it.skipIf(process.platform !== 'linux')(
    '[PX10] when the parent is killed, its child ends and takes the pixels along',
    async () => {
      const place = fileOf('large.jpg', await largeJpeg());
      const pixels = mkdtempSync(path.join(folder, 'orphan-'));
      const request = { place, region: null, limits: defaultPhotoLimits, pixelFile: path.join(pixels, 'a.bin') };
      const childFile = fileURLToPath(new URL('../../dist/decode-child.cjs', import.meta.url));
      // A parent of three lines, which says the number of its child and then waits.
      const script = `const c=require('child_process').fork(${JSON.stringify(childFile)},[],{stdio:['ignore','ignore','ignore','ipc']});
        c.send(${JSON.stringify(request)}); console.log(c.pid); setInterval(()=>{},1000);`;
      const parent = spawn(process.execPath, ['-e', script], { stdio: ['ignore', 'pipe', 'inherit'] });
      const child = await new Promise<number>((resolve) =>
        parent.stdout.once('data', (text: Buffer) => resolve(Number(text.toString()))),
      );
      await new Promise((resolve) => setTimeout(resolve, 250));
      expect(isAlive(child) && existsSync(pixels)).toBe(true);
      parent.kill('SIGKILL');
      const until = performance.now() + 5000;
      while ((isAlive(child) || existsSync(pixels)) && performance.now() < until) {
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
      expect([isAlive(child), existsSync(pixels)]).toEqual([false, false]);
    },
  );

  it('[PX10] a missing decoding program is a defect, no photo error', async () => {
    const lost = createDecoder({ childFile: path.join(folder, 'nowhere.cjs') });
    const error: unknown = await lost.decode(fileOf('a.png', new Uint8Array(9)), {}).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(Error);
    expect(error).not.toBeInstanceOf(AppError);
    await lost.close();
  });
});

const heicTool = spawnSync('heif-enc', ['--help']).error === undefined;
const whyNoHeic = heicTool ? '' : ' (skipped: the program heif-enc is not installed)';

describe.skipIf(!heicTool)(`HEIC${whyNoHeic}`, () => {
  const [width, height] = [96, 64];
  const ramp = Uint8Array.from({ length: width * height * 3 }, (_, i) => {
    const column = Math.floor(i / 3) % width;
    return [40 + 2 * column, 200 - column, 30 + Math.floor(i / 3 / width)][i % 3];
  });

  /** The ramp as HEIC, from a JPEG whose EXIF says this orientation. */
  async function heicOf(orientation: number): Promise<Buffer> {
    const jpeg = await sharp(ramp, raw(width, height, 3))
      .withMetadata({ orientation })
      .jpeg({ quality: 98, chromaSubsampling: '4:4:4' })
      .toBuffer();
    const place = path.join(folder, `ramp${orientation}.heic`);
    const options = ['-q', '95', '-p', 'chroma=444', '-o', place, fileOf('ramp.jpg', jpeg)];
    const made = spawnSync('heif-enc', options, { encoding: 'utf8' });
    if (made.status !== 0) throw new Error(`heif-enc: ${made.stderr}`);
    return readFileSync(place);
  }

  const meanDifference = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
    Array.from(a, (code, i) => Math.abs(code - b[i])).reduce((sum, d) => sum + d, 0) / a.length;

  it('[PX8] a HEIC keeps its codes and place; the EXIF orientation is not applied to it', async () => {
    const own = createDecoder({ processes: 1 });
    for (const orientation of [1, 6]) {
      const { facts, codes } = await own.decode(fileOf('read.heic', await heicOf(orientation)), {});
      expect(facts).toMatchObject({ format: 'heic', widthPx: width, heightPx: height, bitDepth: 8 });
      // Two lossy steps of high quality on a smooth ramp; turned or mirrored it differs by more than 30 on average.
      expect(meanDifference(codes!, ramp)).toBeLessThan(3);
    }
    await own.close();
  });

  it('[PX8] the turn that the HEIC itself holds is applied once', async () => {
    const bytes = await heicOf(1);
    // The box of channel depths is not needed for decoding: it becomes a turn by 90 degrees anti-clockwise.
    const box = bytes.indexOf('pixi');
    expect(box).toBeGreaterThan(0);
    bytes.write('irot', box, 'latin1');
    bytes[box + 4] = 1;
    const own = createDecoder({ processes: 1 });
    const { facts, codes } = await own.decode(fileOf('turned.heic', bytes), {});
    await own.close();
    expect([facts.widthPx, facts.heightPx]).toEqual([height, width]);
    const turned = Uint8Array.from({ length: ramp.length }, (_, i) => {
      const [column, row] = [Math.floor(i / 3) % height, Math.floor(i / 3 / height)];
      return ramp[3 * (column * width + (width - 1 - row)) + (i % 3)];
    });
    expect(meanDifference(codes!, turned)).toBeLessThan(3); // as above
  });
});
