import { mkdtempSync, readFileSync, rmSync, unlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addPhoto } from '../../../core/book/edits';
import { Book } from '../../../core/node/book/book';
import { diskPort } from '../../../core/node/book/disk-port';
import { writeLeftovers } from '../../../core/node/book/write-leftovers';
import { zipContents } from '../../support/zip-contents';

const { signal } = new AbortController();
let folder: string;
let book: Book;
let id: string;
let sums: string[];
const inUnit = (...names: string[]): string => path.join(book.unitFolder(id), ...names);
const left = (): string => path.join(folder, 'left.zip');

async function keep(name: string, content: string): Promise<string> {
  writeFileSync(path.join(folder, name), content);
  const { sha256, ending, bytes } = await book.keepOriginal(id, path.join(folder, name), signal);
  await book.edit(id, (unit) => addPhoto(unit, { sha256, ending, bytes, name, role: 'other' }));
  return sha256;
}

beforeEach(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial left '));
  book = new Book(path.join(folder, 'book'));
  ({ id } = await book.create('Larkfield T-60'));
  sums = [await keep('the dial.jpg', 'one photo'), await keep('try 2.png', 'another photo')];
  // Torn after the first photo; nothing else of the record is whole.
  const text = readFileSync(inUnit('revisions', '3.json'), 'utf8');
  writeFileSync(inUnit('revisions', '3.json'), text.slice(0, text.indexOf('try 2')));
  for (const file of ['unit.json', 'revisions/1.json', 'revisions/2.json']) writeFileSync(inUnit(file), '{"');
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('writeLeftovers', () => {
  it('[BK30] takes out the photos byte for byte, named as far as a torn record tells, and the records as they are', async () => {
    expect(await writeLeftovers(book, id, left(), signal)).toEqual({ photos: 2, damagedPhotos: 0, unreadable: 0 });
    const torn = readFileSync(inUnit('revisions', '3.json'), 'utf8');
    expect(await zipContents(left())).toEqual({
      [`photos/the_dial-${sums[0].slice(0, 8)}.jpg`]: 'one photo',
      [`photos/${sums[1]}.png`]: 'another photo',
      'records/unit.json': '{"',
      'records/revisions/1.json': '{"',
      'records/revisions/2.json': '{"',
      'records/revisions/3.json': torn,
    });
  });

  it('[BK30] keeps a damaged photo apart, and counts what the disk does not give', async () => {
    const [first, second] = [inUnit('photos', `${sums[0]}.jpg`), inUnit('photos', `${sums[1]}.png`)];
    writeFileSync(first, 'one phot0');
    async function* refused(): AsyncGenerator<Uint8Array> {
      yield new Uint8Array(3);
      throw Object.assign(new Error('read failed'), { code: 'EIO' });
    }
    const port = { ...diskPort, readParts: (file: string) => (file === second ? refused() : diskPort.readParts(file)) };
    const worn = new Book(book.folder, { port });
    expect(await writeLeftovers(worn, id, left(), signal)).toEqual({ photos: 0, damagedPhotos: 1, unreadable: 1 });
    const names = Object.keys(await zipContents(left()));
    expect(names[0]).toBe(`damaged photos/the_dial-${sums[0].slice(0, 8)}.jpg`);
    expect(names.filter((name) => name.includes(sums[1]))).toEqual([]);
  });

  it('[BK30] says so where nothing is left', async () => {
    for (const name of [`photos/${sums[0]}.jpg`, `photos/${sums[1]}.png`, 'unit.json']) unlinkSync(inUnit(name));
    rmSync(inUnit('revisions'), { recursive: true });
    await expect(writeLeftovers(book, id, left(), signal)).rejects.toMatchObject({ code: 'NOTHING_LEFT' });
  });
});
