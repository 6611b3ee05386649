import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addPhoto } from '../../../core/book/edits';
import { setField } from '../../../core/book/set-field';
import { Book } from '../../../core/node/book/book';
import { checkBook } from '../../../core/node/book/check-book';

const { signal } = new AbortController();
/** A process number beyond any that Linux gives. */
const nobody = 4_194_305;
let folder: string;
let book: Book;
let id: string;
let original: string;

const inUnit = (...names: string[]): string => path.join(book.unitFolder(id), ...names);
const check = async (repair = false): Promise<string[]> =>
  (await checkBook(book, { repair, signal })).findings.map(
    (one) => `${one.level} ${one.code} ${path.basename(one.place)}${one.repaired === undefined ? '' : ' repaired'}`,
  );

/** Everything in a folder, by path. */
function contents(place: string): Record<string, string> {
  const files = readdirSync(place, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  return Object.fromEntries(
    files.map((one) => {
      const file = path.join(one.parentPath, one.name);
      return [path.relative(place, file), readFileSync(file, 'latin1')];
    }),
  );
}

beforeEach(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial check '));
  book = new Book(path.join(folder, 'book'), { patienceMs: 300 });
  ({ id } = await book.create('Larkfield T-60'));
  writeFileSync(path.join(folder, 'dial.jpg'), 'a photo');
  const { sha256, ending, bytes } = await book.keepOriginal(id, path.join(folder, 'dial.jpg'), signal);
  await book.edit(id, (unit) => addPhoto(unit, { sha256, ending, bytes, name: 'dial.jpg', role: 'other' }));
  await book.edit(id, (unit) => setField(unit, 'notes', 'third'));
  original = inUnit('photos', `${sha256}.jpg`);
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('checkBook', () => {
  it('[BK20] finds nothing in a whole book, and changes nothing', async () => {
    const before = contents(book.folder);
    expect(await check()).toEqual([]);
    expect(contents(book.folder)).toEqual(before);
  });

  it('[BK20] tells everything that is not whole, without touching it', async () => {
    truncateSync(inUnit('revisions', '3.json'), 20);
    unlinkSync(inUnit('revisions', '1.json'));
    writeFileSync(original, 'A photo');
    writeFileSync(inUnit('photos', `${'0'.repeat(64)}.png`), 'unknown');
    writeFileSync(inUnit('lock'), JSON.stringify({ pid: nobody, host: (await import('node:os')).hostname() }));
    writeFileSync(inUnit('photos', `.photo.${nobody}-ab.unfinished`), 'half');
    writeFileSync(inUnit('shopping.txt'), 'tape');
    mkdirSync(path.join(book.folder, 'units', `.x.${nobody}-ab.unfinished`));
    const before = contents(book.folder);
    expect((await check()).sort()).toEqual(
      [
        `note UNFINISHED_LEFT .x.${nobody}-ab.unfinished`,
        'damage REVISION_MISSING 1.json',
        'damage REVISION_DAMAGED 3.json',
        'note UNIT_JSON_OLD unit.json',
        `note UNFINISHED_LEFT .photo.${nobody}-ab.unfinished`,
        `note ORIGINAL_UNUSED ${'0'.repeat(64)}.png`,
        `damage ORIGINAL_DAMAGED ${'0'.repeat(64)}.png`,
        `damage ORIGINAL_DAMAGED ${path.basename(original)}`,
        'note LOCK_LEFT lock',
        'note FILE_UNKNOWN shopping.txt',
      ].sort(),
    );
    expect(contents(book.folder)).toEqual(before);
  });

  it('[BK21] repairs from the copy of a damaged newest revision; the damaged file is kept', async () => {
    const whole = readFileSync(inUnit('revisions', '3.json'), 'utf8');
    truncateSync(inUnit('revisions', '3.json'), 20);
    expect(await check(true)).toContain('damage REVISION_DAMAGED 3.json repaired');
    expect(await check()).toEqual([]);
    expect(readFileSync(inUnit('revisions', '3.json'), 'utf8')).toBe(whole);
    expect(readFileSync(inUnit('damaged', '3.json'), 'utf8')).toBe(whole.slice(0, 20));
  });

  it('[BK21] goes on from the newest whole revision where no copy is left', async () => {
    truncateSync(inUnit('revisions', '3.json'), 20);
    truncateSync(inUnit('unit.json'), 20);
    await expect(book.read(id)).rejects.toMatchObject({ code: 'RECORD_DAMAGED' });
    await check(true);
    expect(await check()).toEqual([]);
    expect((await book.read(id)).revision).toBe(2);
    expect((await book.edit(id, (unit) => setField(unit, 'notes', 'again'))).revision).toBe(3);
  });

  it('[BK21] writes a lost folder of revisions from unit.json', async () => {
    rmSync(inUnit('revisions'), { recursive: true });
    expect((await book.read(id)).notes).toBe('third');
    await check(true);
    expect(await check()).toEqual(['damage REVISION_MISSING 1.json', 'damage REVISION_MISSING 2.json']);
  });

  it('[BK21] removes what was left behind, and never an original', async () => {
    writeFileSync(original, 'A photo');
    copyFileSync(original, inUnit('photos', `${'0'.repeat(64)}.png`));
    writeFileSync(inUnit('revisions', `.4.json.${nobody}-ab.unfinished`), 'half');
    renameSync(inUnit('revisions', '2.json'), inUnit('revisions', '7.json'));
    const photos = contents(inUnit('photos'));
    await check(true);
    expect(contents(inUnit('photos'))).toEqual(photos);
    expect(readdirSync(inUnit('revisions'))).toEqual(['1.json', '3.json']);
    expect(readdirSync(inUnit('damaged'))).toEqual(['7.json']);
  });

  it('[BK21] leaves a unit with a newer revision as it is', async () => {
    writeFileSync(inUnit('revisions', '4.json'), '{"format":"evendial-unit","version":99}');
    const before = contents(book.folder);
    expect(await check(true)).toEqual(['newer REVISION_TOO_NEW 4.json']);
    expect(contents(book.unitFolder(id))).toEqual(
      Object.fromEntries(
        Object.entries(before)
          .filter(([name]) => name.startsWith('units'))
          .map(([name, text]) => [path.relative(path.join('units', id), name), text]),
      ),
    );
  });
});
