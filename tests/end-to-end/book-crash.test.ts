import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, unlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Book } from '../../core/node/book/book';
import { checkBook } from '../../core/node/book/check-book';
import { exportUnit } from '../../core/node/book/export-unit';
import { isLongRun } from '../support/long-run';
import { seededRandom } from '../support/seeded-random';

const { signal } = new AbortController();
const runs = isLongRun ? 200 : 20;
let bench: string;
let child: string;
const started: ChildProcess[] = [];

beforeAll(async () => {
  bench = mkdtempSync(path.join(tmpdir(), 'evendial crash '));
  child = path.join(bench, 'book-child.mjs');
  const banner = { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" };
  await build({
    entryPoints: ['tests/support/book-child.ts'],
    outfile: child,
    bundle: true,
    platform: 'node',
    format: 'esm',
    banner,
  });
});
afterAll(() => {
  for (const one of started) if (one.exitCode === null) one.kill('SIGKILL');
  rmSync(bench, { recursive: true });
});

interface Told {
  readonly ready?: true;
  readonly revision?: number;
  readonly sha256?: string;
  readonly imported?: string;
  readonly holding?: number;
  readonly saved?: true;
}

interface Running {
  readonly process: ChildProcess;
  readonly told: Told[];
  /** Resolves when so many things (of this kind) were told. */
  until(kind: keyof Told | null, count?: number): Promise<void>;
  readonly ended: Promise<void>;
}

function start(...words: string[]): Running {
  const running = spawn(process.execPath, [child, ...words], { stdio: ['ignore', 'pipe', 'inherit'] });
  started.push(running);
  const told: Told[] = [];
  const waiting = new Set<() => void>();
  let rest = '';
  running.stdout.setEncoding('utf8').on('data', (text: string) => {
    const lines = (rest + text).split('\n');
    rest = lines.pop() ?? '';
    told.push(...lines.map((line) => JSON.parse(line) as Told));
    for (const look of waiting) look();
  });
  const ended = new Promise<void>((resolve) => running.on('close', () => resolve()));
  const until: Running['until'] = (kind, count = 1) =>
    new Promise((resolve) => {
      const look = (): void => {
        if (told.filter((one) => kind === null || kind in one).length >= count) resolve();
      };
      waiting.add(look);
      look();
    });
  return { process: running, told, until, ended };
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

async function makeArchives(count: number): Promise<string[]> {
  const other = new Book(path.join(bench, 'other'));
  const files: string[] = [];
  for (let i = 0; i < count; i++) {
    const { id } = await other.create(`Imported ${i}`);
    const source = path.join(bench, `imported ${i}.png`);
    writeFileSync(source, Buffer.alloc(300_000, i + 1));
    await other.keepOriginal(id, source, signal);
    files.push(path.join(bench, `${i}.evendial`));
    await exportUnit(other, id, files[i], signal);
  }
  return files;
}

describe('a book whose process is killed', () => {
  it(`[BK14] ${runs} times during saving, importing and checking, loses nothing`, { timeout: 600_000 }, async () => {
    const book = new Book(path.join(bench, 'killed'));
    const { id } = await book.create('Larkfield T-60');
    const photos = Array.from({ length: 40 }, (_, i) => path.join(bench, `photo ${i}.jpg`));
    photos.forEach((file, i) => writeFileSync(file, Buffer.alloc(200_000, i)));
    const archives = await makeArchives(6);
    const random = seededRandom(6);
    const told: Told[] = [];
    for (let run = 0; run < runs; run++) {
      const turned = [...archives.slice(run % archives.length), ...archives.slice(0, run % archives.length)];
      const running = start('work', book.folder, id, ...photos, ...turned);
      // Somewhere after one of the first steps, however fast the machine is.
      await running.until(null, 1 + Math.floor(random() * 5));
      await pause(random() * 30);
      running.process.kill('SIGKILL');
      await running.ended;
      told.push(...running.told);
      const listed = await book.list();
      expect(listed.filter((unit) => 'error' in unit)).toEqual([]);
      const { findings } = await checkBook(book, { repair: false, signal });
      expect(findings.filter(({ level }) => level !== 'note')).toEqual([]);
      const ids = listed.map((unit) => unit.id);
      expect(running.told.flatMap((one) => one.imported ?? []).filter((one) => !ids.includes(one))).toEqual([]);
    }
    const revisions = told.flatMap(({ revision }) => revision ?? []);
    // Runs have to get somewhere before they are killed, or nothing was tried.
    expect(revisions.length).toBeGreaterThan(runs);
    expect(told.some(({ imported }) => imported !== undefined)).toBe(true);
    for (const revision of revisions) expect((await book.readRevision(id, revision)).revision).toBe(revision);
    expect((await book.read(id)).revision).toBeGreaterThanOrEqual(Math.max(...revisions));
    const kept = path.join(book.unitFolder(id), 'photos');
    for (const sum of new Set(told.flatMap(({ sha256 }) => sha256 ?? []))) {
      const bytes = readFileSync(path.join(kept, `${sum}.jpg`));
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(sum);
    }
    await checkBook(book, { repair: true, signal });
    const left = (await checkBook(book, { repair: false, signal })).findings;
    expect(left.filter(({ code }) => code !== 'ORIGINAL_UNUSED')).toEqual([]);
  });
});

describe('two processes on one unit', () => {
  it('[BK16] that save at once lose no change', async () => {
    const book = new Book(path.join(bench, 'both'));
    const { id } = await book.create('Larkfield T-60');
    const writers = ['first', 'second'].map((name) => start('add', book.folder, id, name, '15'));
    await Promise.all(writers.map(({ ended }) => ended));
    const { parts, revision } = await book.read(id);
    expect([parts.length, revision]).toEqual([30, 31]);
    expect(readdirSync(book.unitFolder(id)).sort()).toEqual(['photos', 'revisions', 'unit.json']);
  });

  it.skipIf(process.platform === 'win32')(
    '[BK16] one stopped with the lock: the other is told by whom, and neither loses its change',
    async () => {
      const book = new Book(path.join(bench, 'stopped'), { patienceMs: 300 });
      const { id } = await book.create('Larkfield T-60');
      const slow = start('hold', book.folder, id, 'slow', '400');
      await slow.until('holding');
      slow.process.kill('SIGSTOP');
      const quick = (): Promise<unknown> =>
        book.edit(id, (unit) => ({ ...unit, parts: [...unit.parts, { name: 'quick' }] }));
      await expect(quick()).rejects.toThrow(`process ${slow.process.pid}`);
      expect((await book.read(id)).parts).toEqual([]);
      // What the message advises to whoever is sure: then the stopped one has lost its lock without knowing.
      unlinkSync(path.join(book.unitFolder(id), 'lock'));
      await quick();
      slow.process.kill('SIGCONT');
      await slow.ended;
      expect(slow.told.at(-1)).toEqual({ saved: true });
      expect((await book.read(id)).parts.map(({ name }) => name)).toEqual(['quick', 'slow']);
    },
  );

  it('[BK16] one killed with the lock: the other goes on at once', async () => {
    const book = new Book(path.join(bench, 'dead'), { patienceMs: 300 });
    const { id } = await book.create('Larkfield T-60');
    const slow = start('hold', book.folder, id, 'slow', '20000');
    await slow.until('holding');
    slow.process.kill('SIGKILL');
    await slow.ended;
    expect((await book.edit(id, (unit) => ({ ...unit, notes: 'on' }))).notes).toBe('on');
  });
});

/** A small disk of its own; null: this user may not mount one. */
function smallDisk(options: string): string | null {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return null;
  const place = mkdtempSync(path.join(tmpdir(), 'evendial-disk-'));
  const { status } = spawnSync('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', place]);
  if (status === 0) return place;
  rmSync(place, { recursive: true });
  return null;
}

const disk = smallDisk('size=1m');
const whyNoDisk = disk === null ? ' (skipped: only root on Linux can mount a small disk)' : '';

describe.skipIf(disk === null)(`a book on a small disk${whyNoDisk}`, () => {
  afterAll(() => {
    spawnSync('umount', [disk ?? '']);
    rmSync(disk ?? '', { recursive: true });
  });

  it('[BK19] that is full, and then only to be read: told in words, everything saved is there', async () => {
    const book = new Book(path.join(disk ?? '', 'book'));
    const { id } = await book.create('Larkfield T-60');
    const source = path.join(bench, 'large.jpg');
    mkdirSync(bench, { recursive: true });
    writeFileSync(source, Buffer.alloc(700_000, 7));
    await book.keepOriginal(id, source, signal);
    let saved = 1;
    const full = async (): Promise<never> => {
      for (;;) {
        const notes = 'x'.repeat(19_000);
        saved = (await book.edit(id, (unit) => ({ ...unit, notes, parts: [{ name: `part ${saved}` }] }))).revision;
      }
    };
    await expect(full()).rejects.toMatchObject({
      code: 'BOOK_NOT_USABLE',
      message: expect.stringMatching('full') as string,
    });
    expect(saved).toBeGreaterThan(3);
    writeFileSync(source, Buffer.alloc(700_000, 8));
    await expect(book.keepOriginal(id, source, signal)).rejects.toMatchObject({ code: 'BOOK_NOT_USABLE' });
    const { findings } = await checkBook(book, { repair: false, signal });
    expect(findings.filter(({ code }) => code !== 'ORIGINAL_UNUSED')).toEqual([]);
    spawnSync('mount', ['-o', 'remount,ro', disk ?? '']);
    const readOnly = book.edit(id, (unit) => ({ ...unit, notes: 'more' }));
    await expect(readOnly).rejects.toMatchObject({
      code: 'BOOK_NOT_USABLE',
      message: expect.stringMatching('only be read') as string,
    });
    expect((await book.read(id)).revision).toBe(saved);
    expect((await book.list()).map((unit) => unit.id)).toEqual([id]);
  });
});
