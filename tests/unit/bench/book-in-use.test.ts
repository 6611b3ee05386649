import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { setField } from '../../../core/book/set-field';
import { Book } from '../../../core/node/book/book';
import { diskPort } from '../../../core/node/book/disk-port';
import type { FilePort } from '../../../core/node/book/file-port';
import { importUnit } from '../../../core/node/book/import-unit';
import { ownMark } from '../../../core/node/book/processes';
import { startBookHost, type BookHost } from '../../support/book-host';

let folder: string;
let place: string;
let benches: BookHost[];
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial in use '));
  place = path.join(folder, 'book');
  benches = [];
});
afterEach(async () => {
  await Promise.all(benches.map((bench) => bench.close()));
  rmSync(folder, { recursive: true });
});

function open(samplesFolder?: string, port?: FilePort): BookHost {
  const bench = startBookHost(new Book(place, port ? { port } : {}), samplesFolder);
  benches.push(bench);
  return bench;
}
const namesIn = async ({ ask }: BookHost): Promise<string[]> =>
  (await ask('bookList', { search: '' })).entries.map((entry) => ('error' in entry ? entry.error : entry.name));
const readOnly = async ({ ask }: BookHost): Promise<string | null> => (await ask('bookList', { search: '' })).readOnly;
const noted = (text: string) => [{ kind: 'set', field: 'notes', text }] as const;

describe('a book that is open already', () => {
  it('[BK28] is shown by a second bench, not changed, and taken over when the first has ended', async () => {
    const first = open();
    const { id: unit } = await first.ask('unitCreate', { name: 'T-60', like: null });
    expect(await readOnly(first)).toBeNull();
    const second = open();
    expect(await readOnly(second)).toMatch(
      new RegExp(`^Another Evendial \\(process ${process.pid}\\) has had this book open since \\d{4}-.* UTC\\.$`),
    );
    expect((await second.ask('unitRead', { unit })).name).toBe('T-60');
    const refused = { code: 'BOOK_IN_USE', message: expect.stringContaining('Another Evendial') as string };
    await expect(second.ask('unitEdit', { unit, edits: noted('two') })).rejects.toMatchObject(refused);
    await expect(second.ask('unitCreate', { name: 'M-4', like: null })).rejects.toMatchObject(refused);
    await expect(second.ask('unitRestore', { unit, which: 'undo' })).rejects.toMatchObject(refused);
    // The command line goes on.
    await new Book(place).edit(unit, (record) => setField(record, 'owner', 'the owner'));
    await first.close();
    expect(existsSync(path.join(place, 'in-use'))).toBe(false);
    expect(await second.ask('unitEdit', { unit, edits: noted('two') })).toMatchObject({
      revision: 3,
      owner: 'the owner',
    });
    expect(await readOnly(second)).toBeNull();
  });

  it('[BK28] by a program that was killed, is free', async () => {
    const child = spawn(process.execPath, ['-e', '']);
    const { pid } = child;
    await once(child, 'exit');
    mkdirSync(place);
    const mark = { ...(await ownMark()), pid, token: 't', since: '2026-05-31T18:00:00.000Z' };
    writeFileSync(path.join(place, 'in-use'), JSON.stringify(mark));
    const bench = open();
    expect(await readOnly(bench)).toBeNull();
    expect(JSON.parse(readFileSync(path.join(place, 'in-use'), 'utf8'))).toMatchObject({ pid: process.pid });
  });

  it('[BK28] on a disk that cannot be written to, is shown all the same', async () => {
    await new Book(place).create('T-60');
    const refuse = async (): Promise<never> => {
      throw Object.assign(new Error('EROFS'), { code: 'EROFS' });
    };
    const bench = open(undefined, { ...diskPort, openExclusively: refuse, makeFolder: refuse });
    expect(await namesIn(bench)).toEqual(['T-60']);
    const why = await readOnly(bench);
    expect(why).toMatch(/cannot be used/);
    expect(why).not.toContain(folder);
  });
});

describe('a full disk', () => {
  it('[BK19] refuses a change in plain words, loses nothing, and takes it once there is room', async () => {
    let isFull = false;
    const port: FilePort = {
      ...diskPort,
      openExclusively(file) {
        if (isFull) return Promise.reject(Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' }));
        return diskPort.openExclusively(file);
      },
    };
    const { ask } = open(undefined, port);
    const { id: unit } = await ask('unitCreate', { name: 'T-60', like: null });
    const saved = await ask('unitEdit', { unit, edits: noted('one') });
    isFull = true;
    const refused = { code: 'BOOK_NOT_USABLE', message: expect.stringMatching(/disk is full/) as string };
    await expect(ask('unitEdit', { unit, edits: noted('two') })).rejects.toMatchObject(refused);
    await expect(ask('unitCreate', { name: 'M-4', like: null })).rejects.toMatchObject(refused);
    expect(await ask('unitRead', { unit })).toEqual(saved);
    isFull = false;
    expect(await ask('unitEdit', { unit, edits: noted('two') })).toMatchObject({ revision: 3, notes: 'two' });
    expect(readdirSync(path.join(place, 'units', unit, 'revisions'))).toEqual(['1.json', '2.json', '3.json']);
  });
});

describe('the sample units', () => {
  it('[BE21] are in a new book at the first look, and stay away when they were deleted', async () => {
    const first = open('samples');
    expect((await namesIn(first)).sort()).toEqual(['Larkfield M-4', 'Larkfield T-60']);
    await first.close();
    rmSync(path.join(place, 'units'), { recursive: true });
    expect(await namesIn(open('samples'))).toEqual([]);
  });

  it('[BE21] are all there, though the program was ended when it had put one there', async () => {
    const [first] = readdirSync('samples').filter((name) => name.endsWith('.evendial'));
    const book = new Book(place);
    const { signal } = new AbortController();
    const { unit } = await importUnit(book, path.join('samples', first), first, { dryRun: false, signal });
    // A change of it meanwhile is kept.
    await book.edit(unit.id, (record) => setField(record, 'notes', 'mine'));
    const bench = open('samples');
    expect((await namesIn(bench)).sort()).toEqual(['Larkfield M-4', 'Larkfield T-60']);
    expect((await bench.ask('unitRead', { unit: unit.id })).notes).toBe('mine');
    expect(existsSync(path.join(place, 'samples-given'))).toBe(true);
  });

  it('[BE21] are not put beside units that were there first', async () => {
    await new Book(place).create('My own');
    const first = open('samples');
    expect(await namesIn(first)).toEqual(['My own']);
    await first.close();
    rmSync(path.join(place, 'units'), { recursive: true });
    expect(await namesIn(open('samples'))).toEqual([]);
  });
});
