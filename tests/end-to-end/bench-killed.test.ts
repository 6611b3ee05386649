import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { BookVerbs } from '../../core/contract/book-verbs';
import { unpackValue } from '../../core/contract/packed';
import type { UnitRecord } from '../../core/contract/unit-record';
import { Book } from '../../core/node/book/book';
import { checkBook } from '../../core/node/book/check-book';

const folder = mkdtempSync(path.join(tmpdir(), 'evendial killed '));
const place = path.join(folder, 'book');
let child: ChildProcess;
afterAll(() => {
  child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

type Ask = <Verb extends keyof BookVerbs>(
  verb: Verb,
  asks: BookVerbs[Verb]['asks'],
) => Promise<BookVerbs[Verb]['answers']>;

/** `evendial serve`, asked over its wire. */
async function serve(): Promise<Ask> {
  child = spawn(process.execPath, ['dist/evendial.cjs', 'serve', '--book', place], {
    env: { ...process.env, TMPDIR: folder },
  });
  let printed = '';
  child.stdout?.on('data', (part: Buffer) => (printed += part.toString()));
  await expect.poll(() => printed, { timeout: 60_000 }).toMatch(/#\S+/);
  const [, address, token] = /(http:\S+)#(\S+)/.exec(printed)!;
  let calls = 0;
  return async (verb, asks) => {
    const response = await fetch(`${address}call/${verb}`, {
      method: 'POST',
      headers: { 'x-evendial-token': token },
      body: JSON.stringify({ call: `call-${++calls}`, asks }),
    });
    if (!response.ok) throw new Error(await response.text());
    return unpackValue(new Uint8Array(await response.arrayBuffer())) as never;
  };
}

describe('a bench that is killed', () => {
  it('[BK14, BK28] in the middle of changes, has lost none that it answered; the next one takes over', async () => {
    const ask = await serve();
    const { id: unit } = await ask('unitCreate', { name: 'T-60', like: null });
    const answered: UnitRecord[] = [];
    let isUp = true;
    const editing = (async () => {
      for (let i = 0; isUp; i++)
        answered.push(await ask('unitEdit', { unit, edits: [{ kind: 'set', field: 'notes', text: `note ${i}` }] }));
    })().catch(() => undefined);
    await expect.poll(() => answered.length, { timeout: 60_000 }).toBeGreaterThan(12);
    isUp = false;
    // Perhaps in the middle of a save.
    child.kill('SIGKILL');
    await Promise.all([once(child, 'exit'), editing]);
    const book = new Book(place);
    for (const record of answered) expect(await book.readRevision(unit, record.revision)).toEqual(record);
    const last = await book.read(unit);
    expect(last.revision).toBeGreaterThanOrEqual(answered.at(-1)?.revision ?? 0);
    const { findings } = await checkBook(book, { repair: false, signal: new AbortController().signal });
    expect(findings.filter(({ level }) => level === 'damage')).toEqual([]);
    const again = await serve();
    const { readOnly, entries } = await again('bookList', { search: '' });
    expect(readOnly).toBeNull();
    expect(entries.map((entry) => ('error' in entry ? '' : entry.name))).toContain('T-60');
    const edits = [{ kind: 'set', field: 'notes', text: 'on' }] as const;
    expect((await again('unitEdit', { unit, edits })).revision).toBeGreaterThan(last.revision);
  }, 180_000);
});
