import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { addPhoto, addWindow } from '../../../core/book/edits';
import { recordText } from '../../../core/book/read-record';
import { setField } from '../../../core/book/set-field';
import { originalPath } from '../../../core/book/unit-series';
import type { UnitRecord } from '../../../core/contract/unit-record';
import { Book } from '../../../core/node/book/book';
import type { FilePort } from '../../../core/node/book/file-port';
import { MemoryDisk, powerCuts } from '../../support/memory-disk';

const never = new AbortController().signal;
const now = (): string => '2026-05-31T18:00:00.000Z';

/** A revision that was reported as saved, and how many changes of the disk that took. */
interface Saved {
  readonly record: UnitRecord;
  readonly changes: number;
}

async function diskWithPhotos(): Promise<MemoryDisk> {
  const disk = new MemoryDisk();
  for (const name of ['/one.JPG', '/two.png', '/again.jpg']) {
    const file = await disk.openExclusively(name);
    await file.write(new TextEncoder().encode(name === '/two.png' ? 'a second photo' : 'a photo'));
    await file.fsync();
  }
  await disk.fsyncFolder('/');
  return disk;
}

/** What a restorer does in an evening, on a disk; stops at the first failure. */
async function evening(disk: MemoryDisk, saved: Saved[]): Promise<void> {
  const book = new Book('/book', { port: disk, now, patienceMs: 0 });
  const keep = (record: UnitRecord): UnitRecord => {
    saved.push({ record, changes: disk.changes.length });
    return record;
  };
  const { id } = keep(await book.create('Larkfield T-60'));
  keep(await book.edit(id, (unit) => addWindow(unit, { name: 'scale', widthMm: 92, heightMm: 18 })));
  for (const source of ['/one.JPG', '/two.png', '/again.jpg']) {
    const { sha256, ending, bytes } = await book.keepOriginal(id, source, never);
    keep(await book.edit(id, (unit) => addPhoto(unit, { sha256, ending, bytes, name: source, role: 'other' })));
  }
  keep(await book.edit(id, (unit) => setField(unit, 'notes', 'the evening of 31 May')));
  keep(await book.restore(id, 'undo'));
  const like = keep(await book.create('Larkfield M-4', await book.read(id)));
  keep(await book.edit(like.id, (unit) => setField(unit, 'owner', 'a friend')));
  await book.list();
}

/** Opens a book and finds every saved revision, whole, and every original of them. */
async function assertWhole(port: FilePort, saved: readonly UnitRecord[]): Promise<void> {
  const book = new Book('/book', { port, now, patienceMs: 0 });
  const listed = await book.list();
  expect(listed.filter((unit) => 'error' in unit)).toEqual([]);
  for (const record of saved) {
    const text = await port.readFile(`${book.unitFolder(record.id)}/revisions/${record.revision}.json`);
    expect(new TextDecoder().decode(text)).toBe(recordText(record));
    expect((await book.read(record.id)).revision).toBeGreaterThanOrEqual(record.revision);
    for (const photo of record.photos) {
      const bytes = await port.readFile(`${book.unitFolder(record.id)}/${originalPath(photo)}`);
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(photo.sha256);
    }
  }
}

describe('the book on a disk that fails', () => {
  it('[BK14] no saved revision and no original is lost, whenever the power is cut', async () => {
    const disk = await diskWithPhotos();
    const start = disk.changes.length;
    const saved: Saved[] = [];
    await evening(disk, saved);
    expect(saved).toHaveLength(9);
    expect(disk.changes.length).toBeGreaterThan(150);
    const replayed = new MemoryDisk();
    for (let count = 0; count <= disk.changes.length; count++) {
      if (count >= 1) replayed.doAgain(disk, count - 1, count);
      if (count < start) continue;
      const before = saved.filter(({ changes }) => changes <= count).map(({ record }) => record);
      for (const how of powerCuts) await assertWhole(replayed.cut(how), before);
    }
  });

  it('[BK14] after a power cut the unit can be changed again', async () => {
    const disk = await diskWithPhotos();
    const saved: Saved[] = [];
    await evening(disk, saved);
    for (let count = saved[0].changes; count <= saved[1].changes; count++) {
      const replayed = new MemoryDisk();
      replayed.doAgain(disk, 0, count);
      for (const how of powerCuts) {
        const left = replayed.cut(how);
        const book = new Book('/book', { port: left, now, patienceMs: 0 });
        // The lock may be left, of a process that runs: the one of this test.
        const lock = `${book.unitFolder(saved[0].record.id)}/lock`;
        if (await left.facts(lock)) await left.unlink(lock);
        const { id, revision } = await book.read(saved[0].record.id);
        expect((await book.edit(id, (unit) => ({ ...unit, notes: 'after it' }))).revision).toBe(revision + 1);
      }
    }
  });

  it.each([
    ['ENOSPC', 1],
    ['EROFS', 7],
  ])('[BK19] %s at any moment is told in words, and nothing is torn', async (code, step) => {
    const whole = await diskWithPhotos();
    const start = whole.changes.length;
    await evening(whole, []);
    for (let count = start; count < whole.changes.length; count += step) {
      const disk = await diskWithPhotos();
      Object.assign(disk, { failsFrom: count, failure: code });
      const saved: Saved[] = [];
      const failure: unknown = await evening(disk, saved).then(
        () => null,
        (error: unknown) => error,
      );
      if (failure !== null) expect(failure).toMatchObject({ kind: 'book', code: 'BOOK_NOT_USABLE' });
      // The last lines only write the index, which can be made again.
      else expect(saved).toHaveLength(9);
      disk.failsFrom = Infinity;
      await assertWhole(
        disk.cut('nothing lost'),
        saved.map(({ record }) => record),
      );
      await assertWhole(
        disk.cut('all lost'),
        saved.map(({ record }) => record),
      );
    }
  });
});
