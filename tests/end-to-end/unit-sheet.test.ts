import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runUnit } from '../../core/node/cli/unit/unit';
import { pdfText, readPdf } from '../support/pdf-reader';
import { runCommand, type CommandEnd } from '../support/run-command';

let bench: string;
const run = (...words: string[]): Promise<CommandEnd> => runCommand(runUnit, [...words, '--book', 'book'], bench);
const bytesOf = (file: string): Buffer => readFileSync(path.join(bench, file));
const hasPdftotext = spawnSync('pdftotext', ['-v']).status === 0;

/** A small lit scale, called 46 x 9 mm, brighter in the middle; with a place and an owner in its notes. */
async function scalePhoto(peak: number): Promise<Buffer> {
  const [width, height] = [560, 150];
  const pixels = Buffer.alloc(width * height * 3, 2);
  for (let row = 30; row < 120; row++) {
    for (let column = 50; column < 510; column++) {
      const light = 120 + peak * Math.exp(-((column - 280) ** 2) / 15000);
      [1, 0.86, 0.62].forEach((share, k) => (pixels[3 * (row * width + column) + k] = light * share));
    }
  }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .withExif({ IFD0: { Artist: 'Quillfeather' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '48/1 7/1 0/1' } })
    .jpeg({ quality: 95 })
    .toBuffer();
}

beforeAll(async () => {
  bench = mkdtempSync(path.join(tmpdir(), 'evendial sheet '));
  writeFileSync(path.join(bench, 'quillfeather before.jpg'), await scalePhoto(20));
  writeFileSync(path.join(bench, 'try.jpg'), await scalePhoto(90));
  writeFileSync(path.join(bench, 'torn.jpg'), (await scalePhoto(50)).subarray(0, 700));
  const at = ['--corners', '50,30 510,30 510,120 50,120'];
  const calls = [
    ['new', 'Larkfield T-60'],
    ['add-window', 'Larkfield T-60', 'scale', '--size', '46x9', '--print', 'none'],
    ['set', 'Larkfield T-60', 'owner=Quillfeather', 'serialNumber=SN-77123', 'photography.room=dark'],
    ['add-trial', 'Larkfield T-60', 'LEDs 8 mm', '--light', 'warm-white'],
    ['set', 'Larkfield T-60', 'trials[LEDs 8 mm].lamps[left].positionMm=11.5,4.5,8'],
    ['add-photo', 'Larkfield T-60', 'quillfeather before.jpg', '--role', 'reference', ...at],
    ['add-photo', 'Larkfield T-60', 'try.jpg', '--role', 'trial:LEDs 8 mm', ...at],
    ['choose-trial', 'Larkfield T-60', 'LEDs 8 mm', '--why', 'it is even'],
    ['new', 'Larkfield M-4'],
  ];
  for (const call of calls) expect(await run(...call)).toMatchObject({ code: 0, err: '' });
}, 60_000);
afterAll(() => rmSync(bench, { recursive: true }));

describe('evendial unit sheet', () => {
  it('[RS14] writes a PDF with measured figures and photos, on the paper asked for', async () => {
    expect(await run('sheet', 'Larkfield T-60', '--out', 'sheet.pdf', '--paper', 'letter')).toEqual({
      code: 0,
      out: 'sheet.pdf is the record sheet of Larkfield T-60, revision 8.\n',
      err: '',
    });
    const [page] = readPdf(bytesOf('sheet.pdf'));
    expect([page.widthPt, page.heightPt].map((side) => Math.round(side))).toEqual([612, 792]);
    const text = pdfText(bytesOf('sheet.pdf'));
    for (const words of ['Larkfield T-60', 'Chosen because: it is even', 'Quillfeather', 'Evenness, 0 to 100'])
      expect(text).toContain(words);
    expect(text).toMatch(/± \d/);
    expect(page.images).toHaveLength(2);
    expect(readdirSync(bench).filter((name) => name.includes('unfinished'))).toEqual([]);
  }, 60_000);

  it('[RS10, RS14] a shared page has neither owner nor serial number nor a path, and tells of it as JSON', async () => {
    const { code, out } = await run('sheet', 'Larkfield T-60', '--out', 'shared.html', '--share', '--json');
    expect([code, JSON.parse(out)]).toMatchObject([
      0,
      { format: 'evendial-sheet', version: 1, file: 'shared.html', paper: null, shared: true },
    ]);
    const page = bytesOf('shared.html').toString();
    const pictures = [...page.matchAll(/base64,([A-Za-z0-9+/=]+)/g)].map(([, text]) => Buffer.from(text, 'base64'));
    const written = page.replace(/base64,[A-Za-z0-9+/=]+/g, '').toLowerCase();
    for (const word of ['Quillfeather', '77123', bench, 'GPS']) {
      expect(written).not.toContain(word.toLowerCase());
      expect(pictures.some((bytes) => bytes.includes(word))).toBe(false);
    }
    expect(page).toContain('A copy to be shared');
  }, 60_000);

  it('[RS14] a unit of which nothing is known yet has a sheet too', async () => {
    expect(await run('sheet', 'Larkfield M-4', '--out', 'empty.pdf')).toMatchObject({ code: 0, err: '' });
    expect(pdfText(bytesOf('empty.pdf'))).toContain('Cautions');
  }, 60_000);

  it('[RS14] a photo that cannot be read is told on the sheet and on standard error', async () => {
    const added = await run('add-photo', 'Larkfield T-60', 'torn.jpg', '--role', 'trial:LEDs 8 mm');
    expect(added.code).toBe(0);
    const { code, err } = await run('sheet', 'Larkfield T-60', '--out', 'torn.pdf');
    expect(code).toBe(3);
    expect(err).toContain('.jpg');
    const text = pdfText(bytesOf('torn.pdf'));
    expect(text).toContain('LEDs 8 mm');
    expect(text.replace(/\s+/g, '')).toContain(
      err
        .split('\n')[0]
        .replace(/^[^:]*: /, '')
        .replace(/\s+/g, ''),
    );
  }, 60_000);

  it('[RS14] refuses what it cannot write, and writes nothing', async () => {
    const calls: [RegExp, string[]][] = [
      [/has no file to go to/, []],
      [/a sheet is a .pdf or a .html/, ['--out', 'sheet.txt']],
      [/--paper is "a5"/, ['--out', 'a.pdf', '--paper', 'a5']],
      [/--paper is for a PDF/, ['--out', 'a.html', '--paper', 'A4']],
      [/cannot be written/, ['--out', 'try.jpg/a.pdf']],
    ];
    for (const [words, more] of calls) {
      const { code, err } = await run('sheet', 'Larkfield M-4', ...more);
      expect([code, err]).toEqual([2, expect.stringMatching(words)]);
    }
    expect(['a.pdf', 'a.html', 'sheet.txt'].filter((name) => existsSync(path.join(bench, name)))).toEqual([]);
  }, 60_000);

  it.skipIf(!hasPdftotext)('[RS12] another reader finds the same words (pdftotext)', () => {
    const { stdout } = spawnSync('pdftotext', ['-raw', path.join(bench, 'sheet.pdf'), '-'], { encoding: 'utf8' });
    for (const words of ['Larkfield T-60', 'Evenness, 0 to 100', 'Do not stare into bright LEDs.'])
      expect(stdout).toContain(words);
  });
});
