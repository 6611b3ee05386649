import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { setField } from '../../../core/book/set-field';
import { Book } from '../../../core/node/book/book';
import { diskPort } from '../../../core/node/book/disk-port';
import type { FilePort } from '../../../core/node/book/file-port';
import { importUnit } from '../../../core/node/book/import-unit';
import { Presence } from '../../../core/node/book/presence';
import { beatMs, silentMs } from '../../../core/node/book/silence';
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
      new RegExp(
        `^Another Evendial \\(process ${process.pid}\\) has had this book open since \\d{4}-.* UTC\\. Go on there, or`,
      ),
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
    expect(why).toMatch(/^The book cannot be used: .*\. See that its disk .* may be written to/);
    expect(why).not.toContain(folder);
    const refused = { code: 'BOOK_NOT_USABLE', remedy: expect.stringMatching(/^See that its disk/) as string };
    await expect(bench.ask('unitCreate', { name: 'M-4', like: null })).rejects.toMatchObject(refused);
  });
});

describe('the mark of a book that is open', () => {
  const mark = (): string => path.join(place, 'in-use');
  const ofAnother = { pid: 1, host: 'workshop.earlier.name', started: null, since: '2026-05-31T18:00:00.000Z' };
  const left = (token: string): void => writeFileSync(mark(), JSON.stringify({ ...ofAnother, token }));
  let nowMs: number;
  let presence: Presence;
  beforeEach(() => {
    mkdirSync(place);
    nowMs = 5e6;
    presence = new Presence(new Book(place), { nowMs: () => nowMs });
  });
  afterEach(() => presence.close());
  /** Looks at it every 5 s for so long. @returns the codes of why nothing can be changed */
  const looked = async (forMs: number): Promise<Set<string | undefined>> => {
    const codes = new Set<string | undefined>();
    for (const end = nowMs + forMs; nowMs < end;) {
      nowMs += 5000;
      codes.add((await presence.readOnly())?.code);
    }
    return codes;
  };

  it('[BK28] of which the system cannot tell whether its owner runs, is free when it was not renewed for a minute', async () => {
    left('t');
    expect((await presence.readOnly())?.message).toMatch(/process 1 on workshop\.earlier\.name/);
    expect(await looked(silentMs - 5000)).toEqual(new Set(['BOOK_IN_USE']));
    expect(await looked(5000)).toEqual(new Set([undefined]));
    expect(JSON.parse(readFileSync(mark(), 'utf8'))).toMatchObject({ pid: process.pid });
  });

  it("[BK28] stays its owner's as long as it is renewed, and when whoever looks was asleep", async () => {
    left('t');
    await presence.readOnly();
    for (let beat = 1; beat <= 12; beat++) {
      utimesSync(mark(), 1000 + beat, 1000 + beat);
      expect(await looked(beatMs)).toEqual(new Set(['BOOK_IN_USE']));
    }
    nowMs += 8 * 3600e3;
    expect(await looked(beatMs)).toEqual(new Set(['BOOK_IN_USE']));
    // Another one's, which is silent for as long as it was looked at.
    expect(await looked(silentMs - 3 * beatMs)).toEqual(new Set(['BOOK_IN_USE']));
    left('u');
    expect(await looked(silentMs)).toEqual(new Set(['BOOK_IN_USE']));
    expect(await looked(5000)).toEqual(new Set([undefined]));
  });

  it('[BK28] is renewed by its owner, who sees when another has it', async () => {
    const owner = new Presence(new Book(place), { everyMs: 10 });
    try {
      expect(await owner.readOnly()).toBeNull();
      utimesSync(mark(), 1000, 1000);
      await expect.poll(() => statSync(mark()).mtimeMs, { timeout: 20_000 }).toBeGreaterThan(1e9);
      left('taken while the owner was asleep');
      await expect.poll(async () => (await owner.readOnly())?.code, { timeout: 20_000 }).toBe('BOOK_IN_USE');
    } finally {
      await owner.close();
    }
    expect(readFileSync(mark(), 'utf8')).toContain('taken while');
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

describe('a disk that is full from the start', () => {
  it('[BK19, BK28] is told as that, with what to do, and not as a program to be closed; with room all can be changed', async () => {
    await new Book(place).create('T-60');
    let isFull = true;
    const openExclusively: FilePort['openExclusively'] = (file) =>
      isFull ? Promise.reject(Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' })) : diskPort.openExclusively(file);
    const bench = open(undefined, { ...diskPort, openExclusively });
    expect(await readOnly(bench)).toMatch(/^The book cannot be used: .*full.*\. Make room on the disk/);
    const refused = { code: 'BOOK_NOT_USABLE', remedy: expect.stringMatching(/^Make room on the disk/) as string };
    await expect(bench.ask('unitCreate', { name: 'M-4', like: null })).rejects.toMatchObject(refused);
    isFull = false;
    expect(await readOnly(bench)).toBeNull();
    expect((await bench.ask('unitCreate', { name: 'M-4', like: null })).name).toBe('M-4');
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
