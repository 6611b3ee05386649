import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addPhoto } from '../../../core/book/edits';
import { recordText } from '../../../core/book/read-record';
import { setField } from '../../../core/book/set-field';
import { Book } from '../../../core/node/book/book';
import { checkBook } from '../../../core/node/book/check-book';
import { exportUnit } from '../../../core/node/book/export-unit';
import { importUnit } from '../../../core/node/book/import-unit';
import { manifestOf, sha256, zipOf, type ZipEntry } from '../../support/book-archives';
import { larkfieldUnit, photoEntry } from '../../support/unit-records';

const { signal } = new AbortController();
let folder: string;
let book: Book;
let other: Book;

/** Every file and folder below a place. */
const everything = (place: string): string[] => readdirSync(place, { recursive: true }).map(String).sort();
const take = (file: string, into = other, dryRun = false): ReturnType<typeof importUnit> =>
  importUnit(into, file, path.basename(file), { dryRun, signal });

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial archive '));
  book = new Book(path.join(folder, 'book'));
  other = new Book(path.join(folder, 'other'));
});
afterEach(() => rmSync(folder, { recursive: true }));

async function unitWithPhotos(): Promise<string> {
  const { id } = await book.create('Larkfield T-60');
  for (const [name, length] of [
    ['dial.jpg', 200_000],
    ['meter.png', 3],
  ] as const) {
    const source = path.join(folder, name);
    writeFileSync(source, Buffer.from(Array.from({ length }, (_, i) => (i * i) % 253)));
    const { sha256: sum, ending, bytes } = await book.keepOriginal(id, source, signal);
    await book.edit(id, (unit) => addPhoto(unit, { sha256: sum, ending, bytes, name, role: 'other' }));
  }
  await book.edit(id, (unit) => setField(unit, 'notes', 'größer'));
  return id;
}

describe('exportUnit and importUnit', () => {
  it('[BK22] an exported unit comes back equal, and exports to the same archive', async () => {
    const id = await unitWithPhotos();
    const archive = path.join(folder, 'made', 't-60.evendial');
    expect(await exportUnit(book, id, archive, signal)).toEqual({ revisions: 4, photos: 2 });
    expect(await take(archive)).toMatchObject({ revisions: 4, photos: 2, shared: false, isWritten: true });
    const [from, to] = [book.unitFolder(id), other.unitFolder(id)];
    expect(everything(to)).toEqual(everything(from));
    for (const name of everything(from).filter((one) => path.extname(one) !== ''))
      expect(readFileSync(path.join(to, name)).equals(readFileSync(path.join(from, name)))).toBe(true);
    expect((await checkBook(other, { repair: false, signal })).findings).toEqual([]);
    const again = path.join(folder, 'again.evendial');
    await exportUnit(other, id, again, signal);
    expect(readFileSync(again).equals(readFileSync(archive))).toBe(true);
    expect(readdirSync(path.dirname(archive))).toEqual(['t-60.evendial']);
  });

  it('[BK22] importing twice writes nothing the second time; other revisions are refused; a dry run writes nothing', async () => {
    const id = await unitWithPhotos();
    const archive = path.join(folder, 't-60.evendial');
    await exportUnit(book, id, archive, signal);
    expect(await take(archive, other, true)).toMatchObject({ isWritten: false, isThere: false, photos: 2 });
    expect(existsSync(other.folder)).toBe(false);
    await take(archive);
    const before = everything(other.folder);
    expect(await take(archive)).toMatchObject({ isWritten: false, isThere: true });
    expect(everything(other.folder)).toEqual(before);
    await book.edit(id, (unit) => setField(unit, 'notes', 'later'));
    await exportUnit(book, id, archive, signal);
    await expect(take(archive)).rejects.toMatchObject({ code: 'UNIT_EXISTS' });
    expect(everything(other.folder)).toEqual(before);
  });

  it('[BK22] a unit with a damaged original is not exported, and no archive is left', async () => {
    const id = await unitWithPhotos();
    const photos = path.join(book.unitFolder(id), 'photos');
    const [name] = readdirSync(photos);
    const bytes = readFileSync(path.join(photos, name));
    bytes[0] ^= 1;
    writeFileSync(path.join(photos, name), bytes);
    const file = path.join(folder, 'made', 't-60.evendial');
    await expect(exportUnit(book, id, file, signal)).rejects.toMatchObject({ code: 'ORIGINAL_DAMAGED' });
    expect(readdirSync(path.dirname(file))).toEqual([]);
    const place = path.join(photos, name, 'inside.evendial');
    await expect(exportUnit(book, id, place, signal)).rejects.toMatchObject({ code: 'FILE_NOT_WRITTEN' });
  });
});

const photo = Buffer.from('a photo');
const photoName = `photos/${sha256(photo)}.jpg`;
const record = {
  ...larkfieldUnit(),
  photos: [photoEntry('0', { sha256: sha256(photo), bytes: photo.length })],
  readings: [],
};
const revision: ZipEntry = { name: 'revisions/1.json', data: recordText(record) };
const good = [revision, { name: photoName, data: photo }];
const archiveOf = (entries: readonly ZipEntry[], changes = {}): Buffer =>
  zipOf([manifestOf(record.id, entries, changes), ...entries]);
const withEntry = (entry: ZipEntry): Buffer => archiveOf([...good, entry]);
const changedRecord = (changes: object): ZipEntry => ({ ...revision, data: JSON.stringify({ ...record, ...changes }) });
const zeros = Buffer.alloc(4 * 2 ** 20);

const hostile: [what: string, why: string, make: () => Buffer, code?: string][] = [
  [
    'a path that climbs out',
    'it holds "../../photos/evil.jpg"',
    () => withEntry({ name: '../../photos/evil.jpg', data: 'x' }),
  ],
  [
    'a path that climbs out from within',
    'it holds "photos/../../evil.jpg"',
    () => withEntry({ name: 'photos/../../evil.jpg', data: 'x' }),
  ],
  ['an absolute path', 'it holds "/etc/evil.jpg"', () => withEntry({ name: '/etc/evil.jpg', data: 'x' })],
  ['a path of Windows', 'it holds "photos', () => withEntry({ name: 'photos\\..\\evil.jpg', data: 'x' })],
  ['a drive', 'it holds "C:evil.jpg"', () => withEntry({ name: 'C:evil.jpg', data: 'x' })],
  ['an unknown file', 'it holds "lock"', () => withEntry({ name: 'lock', data: 'x' })],
  ['a folder', 'it holds "photos/"', () => withEntry({ name: 'photos/', data: '' })],
  ['a name with a zero byte', 'no unit has', () => withEntry({ name: `${photoName}\0.txt`, data: 'x' })],
  [
    'a symbolic link',
    'is a link',
    () => archiveOf([revision, { name: photoName, data: '/etc/passwd', mode: 0o120777 }]),
  ],
  ['a name twice', 'jpg twice', () => zipOf([manifestOf(record.id, good), ...good, good[1]])],
  [
    'names that differ by capitals',
    'it holds "PHOTOS/',
    () => withEntry({ name: photoName.toUpperCase(), data: photo }),
  ],
  [
    'one photo under two endings',
    'it holds a photo twice',
    () => withEntry({ name: photoName.replace('jpg', 'png'), data: photo }),
  ],
  ['a wrong CRC', 'has a wrong CRC', () => archiveOf([revision, { name: photoName, data: photo, crc: 7 }])],
  [
    'a wrong checksum',
    'is not what its checksum says',
    () => zipOf([manifestOf(record.id, good), revision, { name: photoName, data: 'A photo' }]),
  ],
  [
    'a photo not named after its checksum',
    'is not named after its checksum',
    () => withEntry({ name: `photos/${'0'.repeat(64)}.jpg`, data: 'x' }),
  ],
  ['no manifest', 'it has no archive.json', () => zipOf(good)],
  ['a manifest that is no JSON', 'is no JSON', () => zipOf([{ name: 'archive.json', data: '{' }, ...good])],
  ['a manifest with an unknown key', 'is not as it should be', () => archiveOf(good, { also: 1 })],
  [
    'a file that its manifest does not name',
    'does not hold what',
    () => zipOf([manifestOf(record.id, [revision]), ...good]),
  ],
  ['a file less than its manifest names', 'does not hold what', () => zipOf([manifestOf(record.id, good), revision])],
  ['no revision', 'holds no revision', () => archiveOf([good[1]])],
  ['an id that is a path', 'is not as it should be', () => archiveOf(good, { unit: '../evil' })],
  [
    'a revision of another unit',
    'of another unit or number',
    () => archiveOf([changedRecord({ id: 'other' }), good[1]]),
  ],
  [
    'a revision under another number',
    'of another unit or number',
    () => archiveOf([changedRecord({ revision: 2 }), good[1]]),
  ],
  ['a damaged record', 'windows: must be a list', () => archiveOf([changedRecord({ windows: 7 }), good[1]])],
  ['a record with an original missing', 'the original of "0.jpg" is missing', () => archiveOf([revision])],
  ['an encrypted file', 'is encrypted', () => archiveOf([revision, { name: photoName, data: photo, flags: 0x801 }])],
  ['an unknown packing', 'packed in a way', () => archiveOf([revision, { name: photoName, data: photo, method: 12 }])],
  [
    'a bomb',
    'far more than a unit holds',
    () => withEntry({ name: `photos/${'0'.repeat(64)}.bin`, data: 'x', saysBytes: 2 ** 29 }),
  ],
  [
    'a bomb that lies about its length',
    'cannot be unpacked',
    () => withEntry({ name: `photos/${sha256(zeros)}.bin`, data: zeros, saysBytes: 7 }),
  ],
  ['an enormous record', 'is too large', () => archiveOf([{ ...revision, saysBytes: 2 ** 31 }, good[1]])],
  ['files that lie over each other', 'longer than the file', () => overlapping()],
  ['half an archive', 'no whole zip file', () => archiveOf(good).subarray(0, 400)],
  ['no zip at all', 'no whole zip file', () => Buffer.from('this is no archive')],
  ['nothing', 'no whole zip file', () => Buffer.alloc(0)],
  [
    'a record that is too new',
    'version 99',
    () => archiveOf([changedRecord({ version: 99 }), good[1]]),
    'RECORD_TOO_NEW',
  ],
  ['an archive that is too new', 'version 2', () => archiveOf(good, { version: 2 }), 'ARCHIVE_TOO_NEW'],
];

/** One revision, forty times over. */
function overlapping(): Buffer {
  const many = Array.from({ length: 40 }, (_, i) => ({ ...revision, name: `revisions/${i + 2}.json`, liesAt: 1 }));
  return archiveOf([...good, ...many]);
}

describe('a hostile archive', () => {
  it('is told from this one, which is taken', async () => {
    const file = path.join(folder, 'good.evendial');
    writeFileSync(file, archiveOf(good));
    expect(await take(file)).toMatchObject({ photos: 1, revisions: 1, isWritten: true });
  });

  it.each(hostile)(
    '[BK23] with %s is refused whole, and nothing is written',
    async (_, why, make, code = 'ARCHIVE_REFUSED') => {
      const file = path.join(folder, 'evil.evendial');
      writeFileSync(file, make());
      const before = everything(folder);
      const begun = performance.now();
      const failure: unknown = await take(file).catch((error: unknown) => error);
      expect(failure).toMatchObject({ name: 'AppError', code });
      expect(String(failure)).toContain(why);
      expect(everything(folder)).toEqual(before);
      expect(performance.now() - begun).toBeLessThan(5000);
    },
  );

  it('[BK23] that is not there, or a folder, is told in words', async () => {
    await expect(take(path.join(folder, 'none.evendial'))).rejects.toMatchObject({ code: 'ARCHIVE_NOT_READ' });
    await expect(take(folder)).rejects.toMatchObject({ kind: 'usage' });
  });

  it('[BK23] cut anywhere is refused', async () => {
    const whole = archiveOf(good);
    const file = path.join(folder, 'cut.evendial');
    for (let length = whole.length - 1; length > 0; length -= 97) {
      writeFileSync(file, whole);
      truncateSync(file, length);
      await expect(take(file)).rejects.toMatchObject({ code: 'ARCHIVE_REFUSED' });
    }
    expect(existsSync(other.folder)).toBe(false);
  });
});
