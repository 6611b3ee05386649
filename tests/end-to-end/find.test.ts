import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import type { PhotoTruth } from '../../samples/render/truth-file';

const run = (...words: string[]) =>
  spawnSync(process.execPath, ['dist/evendial.cjs', ...words], { encoding: 'utf8', timeout: 60_000 });
const photo = (name: string): string => path.join('samples', 'photos', name);
const truthOf = (name: string) => (JSON.parse(readFileSync(`${photo(name)}.truth.json`, 'utf8')) as PhotoTruth).windows;

interface Outlines {
  format: string;
  version: number;
  photos: {
    file: string;
    widthPx: number;
    heightPx: number;
    candidates: { cornersPx: [number, number][]; outline: string; confidence: number }[];
    error?: { code: string; remedy: string };
  }[];
}

describe('evendial find', () => {
  it('[CL15] gives the outlines of each photo, best first, a bad photo at its place', () => {
    const { stdout, status } = run('find', photo('panel-both.jpg'), photo('missing.jpg'), '--json');
    expect(status).toBe(3);
    const { format, version, photos } = JSON.parse(stdout) as Outlines;
    expect([format, version, photos.length]).toEqual(['evendial-outlines', 1, 2]);
    const [scale] = truthOf('panel-both.jpg');
    const [best, second] = photos[0].candidates;
    expect(best.confidence).toBeGreaterThanOrEqual(second.confidence);
    const isScale = (one: typeof best): boolean => Math.abs(one.cornersPx[0][0] - scale.cornersPx[0][0]) < 20;
    const found = isScale(best) ? best : second;
    const widthPx = scale.cornersPx[1][0] - scale.cornersPx[0][0];
    found.cornersPx.forEach(([x, y], i) => {
      expect(Math.hypot(x - scale.cornersPx[i][0], y - scale.cornersPx[i][1])).toBeLessThan(0.005 * widthPx);
    });
    expect(photos[1].error).toMatchObject({ code: 'PHOTO_MISSING' });
  });

  it('[CL15] no photo named: exit 2; no lit window: exit 4, for find and for measure', async () => {
    expect(run('find').status).toBe(2);
    const folder = mkdtempSync(path.join(tmpdir(), 'evendial-find-'));
    try {
      const plain = path.join(folder, 'plain.png');
      await sharp({ create: { width: 900, height: 500, channels: 3, background: '#3a3834' } })
        .png()
        .toFile(plain);
      const { stdout, status } = run('find', plain, '--json');
      expect([status, (JSON.parse(stdout) as Outlines).photos[0].candidates]).toEqual([4, []]);
      const measured = run('measure', plain, '--json');
      expect(measured.status).toBe(4);
      expect(measured.stdout).toContain('WINDOW_NOT_FOUND');
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('[CL15] measure without corners takes the surest window, and scores as with the given ones', () => {
    const name = 't60-warm-white-diffuser.jpg';
    const given = truthOf(name)[0]
      .cornersPx.map((corner) => corner.join(','))
      .join(' ');
    const words = ['--size', '92x18', '--print', 'dark', '--light', 'warm-white', '--room', 'dark', '--json'];
    const readingOf = (...more: string[]) =>
      (JSON.parse(run('measure', photo(name), ...words, ...more).stdout) as { readings: Record<string, never>[] })
        .readings[0] as unknown as {
        outline: { cornersFrom: string; searchConfidence?: number };
        evenness: { score: { value: number } };
      };
    const [searched, stated] = [readingOf(), readingOf('--corners', given)];
    expect(searched.outline).toMatchObject({ cornersFrom: 'search' });
    expect(searched.outline.searchConfidence).toBeGreaterThanOrEqual(0.5);
    expect(stated.outline.cornersFrom).toBe('given');
    expect(searched.evenness.score.value).toBeWithin(stated.evenness.score.value, 1); // corners within 0.5 % of the width
  });
});
