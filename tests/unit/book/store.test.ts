import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addPhoto } from '../../../core/book/edits';
import { setField } from '../../../core/book/set-field';
import type { UnitRecord } from '../../../core/contract/unit-record';
import { Book } from '../../../core/node/book/book';
import { diskPort } from '../../../core/node/book/disk-port';
import { ownMark } from '../../../core/node/book/processes';

const never = new AbortController().signal;
let folder: string;
let book: Book;

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial book '));
  book = new Book(path.join(folder, 'inner', 'book'), { patienceMs: 300 });
});
afterEach(() => rmSync(folder, { recursive: true }));

const noted = (text: string) => (unit: UnitRecord) => setField(unit, 'notes', text);
const inUnit = (id: string, ...names: string[]): string => path.join(book.unitFolder(id), ...names);
const changeText = (file: string, change: (text: string) => string): void =>
  writeFileSync(file, change(readFileSync(file, 'utf8')));

describe('Book', () => {
  it('[BK14] keeps every revision; unit.json is the last one, and nothing else is left lying', async () => {
    const { id } = await book.create('Larkfield T-60');
    await book.edit(id, noted('one'));
    const last = await book.edit(id, noted('two'));
    expect(last.revision).toBe(3);
    expect(readdirSync(inUnit(id))).toEqual(['photos', 'revisions', 'unit.json']);
    expect(readdirSync(inUnit(id, 'revisions'))).toEqual(['1.json', '2.json', '3.json']);
    expect(readFileSync(inUnit(id, 'unit.json'), 'utf8')).toBe(readFileSync(inUnit(id, 'revisions', '3.json'), 'utf8'));
    expect((await book.timeline(id)).map(({ changes }) => changes.length)).toEqual([0, 1, 1]);
    expect(await book.edit(id, (unit) => unit)).toEqual(last);
  });

  it('[BK15] unit.json stands in for a damaged newest revision, another revision does not', async () => {
    const { id } = await book.create('T-60');
    const saved = await book.edit(id, noted('one'));
    truncateSync(inUnit(id, 'revisions', '2.json'), 40);
    expect(await book.read(id)).toEqual(saved);
    const next = await book.edit(id, noted('two'));
    expect([next.revision, next.undo]).toEqual([3, 2]);
    truncateSync(inUnit(id, 'revisions', '3.json'), 40);
    changeText(inUnit(id, 'unit.json'), (text) => text.slice(1));
    await book.create('M-4');
    await expect(book.read(id)).rejects.toMatchObject({ kind: 'book', code: 'RECORD_DAMAGED' });
    expect((await book.list()).map((unit) => 'error' in unit)).toEqual([false, true]);
  });

  it('[BK3] a newer revision is refused and left untouched, not passed over for an older one', async () => {
    const { id } = await book.create('T-60');
    const file = inUnit(id, 'revisions', '2.json');
    writeFileSync(file, '{"format":"evendial-unit","version":99,"secret":1}');
    await expect(book.edit(id, noted('lost?'))).rejects.toMatchObject({ code: 'RECORD_TOO_NEW' });
    expect(readFileSync(file, 'utf8')).toContain('"secret":1');
    expect(readdirSync(inUnit(id, 'revisions'))).toEqual(['1.json', '2.json']);
  });

  it('[BK16] changes made at one time are all kept', async () => {
    const { id } = await book.create('T-60');
    const other = new Book(book.folder, { patienceMs: 20_000 });
    const first = new Book(book.folder, { patienceMs: 20_000 });
    const part = (name: string) => (unit: UnitRecord) => ({ ...unit, parts: [...unit.parts, { name }] });
    await Promise.all(Array.from({ length: 12 }, (_, i) => (i % 2 ? first : other).edit(id, part(`part ${i}`))));
    const { parts, revision } = await book.read(id);
    expect([parts.length, revision]).toEqual([12, 13]);
  });

  it('[BK16] a lock that was taken for left behind loses no change: the edit is done again', async () => {
    const { id } = await book.create('T-60');
    const lock = inUnit(id, 'lock');
    const slow = book.edit(id, (unit) => {
      if (existsSync(lock)) unlinkSync(lock);
      return noted('slow')(unit);
    });
    const quick = new Book(book.folder).edit(id, (unit) => setField(unit, 'owner', 'quick'));
    await Promise.all([slow, quick]);
    expect(await book.read(id)).toMatchObject({ notes: 'slow', owner: 'quick', revision: 3 });
  });

  it("[BK16] waits for a live owner's lock and says who it is; takes a dead owner's at once", async () => {
    const { id } = await book.create('T-60');
    const lock = inUnit(id, 'lock');
    const since = '2026-05-31T18:00:00.000Z';
    writeFileSync(lock, JSON.stringify({ ...(await ownMark()), token: 'x', since }));
    const failure = book.edit(id, noted('one'));
    await expect(failure).rejects.toMatchObject({ kind: 'book', code: 'UNIT_LOCKED' });
    await expect(failure).rejects.toThrow(`process ${process.pid} on ${hostname()}, since ${since}`);
    expect((await book.read(id)).revision).toBe(1);
    const { pid } = spawnSync(process.execPath, ['--version']);
    for (const mark of [
      { pid, started: null },
      { pid: process.pid, started: 'another start of the system 7' },
    ]) {
      writeFileSync(lock, JSON.stringify({ ...mark, host: hostname(), token: 'x', since }));
      const begun = performance.now();
      await book.edit(id, noted(String(mark.started)));
      expect(performance.now() - begun).toBeLessThan(250);
      expect(existsSync(lock)).toBe(false);
    }
    writeFileSync(lock, JSON.stringify({ pid, started: null, host: 'another machine', token: 'x', since }));
    await expect(book.edit(id, noted('two'))).rejects.toMatchObject({ code: 'UNIT_LOCKED' });
    writeFileSync(lock, '{"pid":');
    expect((await book.edit(id, noted('two'))).revision).toBe(4);
  });

  it('[BK17] keeps originals byte for byte, the same one once, and tells what cannot be read', async () => {
    const { id } = await book.create('T-60');
    const bytes = Buffer.from(Array.from({ length: 3_000_000 }, (_, i) => (i * i) % 251));
    const source = path.join(folder, 'Dial One.JPG');
    writeFileSync(source, bytes);
    const { isNew, ...kept } = await book.keepOriginal(id, source, never);
    writeFileSync(path.join(folder, 'copy.png'), bytes);
    const again = await book.keepOriginal(id, path.join(folder, 'copy.png'), never);
    expect([isNew, again.isNew, again.sha256, again.ending]).toEqual([true, false, kept.sha256, 'jpg']);
    const place = inUnit(id, 'photos', `${kept.sha256}.jpg`);
    expect(readdirSync(inUnit(id, 'photos'))).toEqual([path.basename(place)]);
    expect(readFileSync(place).equals(bytes)).toBe(true);
    await book.edit(id, (unit) => addPhoto(unit, { ...kept, name: 'Dial One.JPG', role: 'other' }));
    const notRead = { kind: 'photo', code: 'PHOTO_NOT_READ' };
    await expect(book.keepOriginal(id, path.join(folder, 'none.jpg'), never)).rejects.toMatchObject(notRead);
    await expect(book.keepOriginal(id, folder, never)).rejects.toMatchObject(notRead);
    truncateSync(place, 5);
    await expect(book.keepOriginal(id, source, never)).rejects.toMatchObject({ code: 'ORIGINAL_DAMAGED' });
    expect(statSync(place).size).toBe(5);
  });

  it('[BK18] makes its index again when it is missing, damaged or old', async () => {
    const { id } = await book.create('Larkfield T-60');
    const names = async (search?: string): Promise<string[]> =>
      (await book.list(search)).map((unit) => ('error' in unit ? '!' : unit.name));
    await book.create('Larkfield M-4');
    const index = path.join(book.folder, 'book.json');
    expect(await names()).toEqual(['Larkfield M-4', 'Larkfield T-60']);
    for (const spoil of [() => unlinkSync(index), () => truncateSync(index, 30), () => writeFileSync(index, '[7]')]) {
      spoil();
      expect(await names('t-60')).toEqual(['Larkfield T-60']);
      expect(JSON.parse(readFileSync(index, 'utf8'))).toMatchObject({ format: 'evendial-book', version: 1 });
    }
    await book.edit(id, noted('hum at 50 Hz'));
    expect(await names('HUM larkfield')).toEqual(['Larkfield T-60']);
    rmSync(book.unitFolder(id), { recursive: true });
    expect(await names()).toEqual(['Larkfield M-4']);
    writeFileSync(index, '{"format":"evendial-book","version":2}');
    await expect(book.list()).rejects.toMatchObject({ code: 'BOOK_TOO_NEW' });
    expect(readFileSync(index, 'utf8')).toContain('"version":2');
  });

  it('[BK18] a book that is not there yet is empty, and looking at it makes nothing', async () => {
    expect(await book.list()).toEqual([]);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('finds a unit by id, name or the beginning of its id, and asks when several fit', async () => {
    const { id } = await book.create('Larkfield T-60');
    await book.create('larkfield t-60');
    const alone = await book.create('M-4');
    expect(await book.idOf(id)).toBe(id);
    expect(await book.idOf('m-4')).toBe(alone.id);
    expect(await book.idOf('m-')).toBe(alone.id);
    await expect(book.idOf('Larkfield T-60')).rejects.toMatchObject({ kind: 'usage', code: 'UNIT_AMBIGUOUS' });
    await expect(book.idOf('x')).rejects.toMatchObject({ kind: 'usage', code: 'UNIT_UNKNOWN' });
  });

  it('[BK19] a book that is no folder is told in words', async () => {
    const file = path.join(folder, 'file');
    writeFileSync(file, '');
    await expect(new Book(path.join(file, 'book')).create('T-60')).rejects.toMatchObject({ code: 'BOOK_NOT_USABLE' });
    symlinkSync('loop', path.join(folder, 'loop'));
    await expect(new Book(path.join(folder, 'loop')).create('T-60')).rejects.toMatchObject({ code: 'BOOK_NOT_USABLE' });
    expect((await diskPort.facts(path.join(folder, 'loop')))?.kind).toBe('other');
  });
});
