import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import { toldToPage } from '../../../core/node/bench/told-to-page';
import { Book } from '../../../core/node/book/book';
import { zipContents } from '../../support/zip-contents';
import { startBookHost, type BookHost } from '../../support/book-host';

const folder = mkdtempSync(path.join(tmpdir(), 'evendial book verbs '));
const place = path.join(folder, 'inner', 'book');
let bench: BookHost;
beforeAll(() => {
  bench = startBookHost(new Book(place));
});
afterAll(async () => {
  await bench.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('the book behind the bench', () => {
  it('[BE16] makes, finds, changes and undoes units; every change is one revision', async () => {
    const { ask } = bench;
    const made = await ask('unitCreate', { name: 'Larkfield T-60', like: null });
    expect(made).toMatchObject({ name: 'Larkfield T-60', revision: 1 });
    const { id: unit } = made;
    const edited = await ask('unitEdit', {
      unit,
      edits: [
        { kind: 'add-window', window: { name: 'scale', widthMm: 92, heightMm: 18 } },
        { kind: 'add-trial', name: 'Bare', light: 'warm-white', like: null, mirrorTo: null },
        { kind: 'set', field: 'before.lamp.base', text: 'E10' },
      ],
    });
    expect(edited).toMatchObject({ revision: 2, undo: 1, before: { lamp: { base: 'E10' } } });
    expect(await ask('unitRead', { unit })).toEqual(edited);
    const { entries } = await ask('bookList', { search: 'e10 larkfield' });
    const { savedAt } = edited;
    const counts = { windows: ['scale'], revision: 2, trials: 1, photos: 0, chosen: null };
    expect(entries).toEqual([{ id: unit, name: 'Larkfield T-60', savedAt, ...counts }]);
    expect((await ask('bookList', { search: 'no such words' })).entries).toEqual([]);
    const undone = await ask('unitRestore', { unit, which: 'undo' });
    expect(undone).toMatchObject({ revision: 3, windows: [], restores: 1, redo: 2 });
    const newest = await ask('unitTimeline', { unit, most: 2 });
    expect(newest.map(({ revision, restores }) => [revision, restores])).toEqual([
      [3, 1],
      [2, null],
    ]);
    expect(newest[1].changes).toContainEqual({ place: 'before', after: { lamp: { base: 'E10' } } });
    expect(await ask('unitTimeline', { unit, most: 9 })).toHaveLength(3);
    await ask('unitRestore', { unit, which: 'redo' });
    const like = await ask('unitCreate', { name: 'Larkfield T-60 B', like: unit });
    expect(like).toMatchObject({ revision: 1, windows: edited.windows, trials: edited.trials });
  });

  it('[BE16] refuses a whole group of edits for one that is wrong, and saves nothing', async () => {
    const { ask } = bench;
    const { id: unit } = await ask('unitCreate', { name: 'M-4', like: null });
    const edits = [
      { kind: 'set', field: 'notes', text: 'one' },
      { kind: 'choose-trial', trial: 'nowhere', why: '' },
    ] as const;
    await expect(ask('unitEdit', { unit, edits })).rejects.toMatchObject({ code: 'TRIAL_UNKNOWN' });
    expect((await ask('unitRead', { unit })).revision).toBe(1);
  });

  it('[BE16] tells of a unit that is not there or cannot be read, and no place of the disk', async () => {
    const { ask } = bench;
    await expect(ask('unitRead', { unit: 'larkfield-t-60-nowhere' })).rejects.toMatchObject({ code: 'UNIT_UNKNOWN' });
    const { id: unit } = await ask('unitCreate', { name: 'Damaged', like: null });
    for (const file of ['unit.json', 'revisions/1.json']) writeFileSync(path.join(place, 'units', unit, file), '{"');
    const { entries } = await ask('bookList', { search: '' });
    const damaged = entries.find(({ id }) => id === unit);
    expect(damaged).toEqual({ id: unit, error: expect.stringContaining('damaged') });
    const failure = await ask('unitRead', { unit }).catch((error: Error) => error);
    expect(failure).toMatchObject({ code: 'RECORD_DAMAGED' });
    expect(JSON.stringify([entries, (failure as Error).message])).not.toContain(folder);
  });

  it('[BE16, BK21] repairs a damaged unit from its newest whole revision, and says when none is whole', async () => {
    const { ask } = bench;
    const { id: unit } = await ask('unitCreate', { name: 'To be repaired', like: null });
    const second = await ask('unitEdit', { unit, edits: [{ kind: 'set', field: 'notes', text: 'two' }] });
    await ask('unitEdit', { unit, edits: [{ kind: 'set', field: 'notes', text: 'three' }] });
    const inUnit = (...names: string[]): string => path.join(place, 'units', unit, ...names);
    for (const file of ['unit.json', 'revisions/3.json']) writeFileSync(inUnit(file), '{"torn');
    const failure: unknown = await ask('unitRead', { unit }).catch((error: unknown) => error);
    expect(failure).toMatchObject({ code: 'RECORD_DAMAGED', remedy: expect.stringContaining('Repair this unit') });
    expect(await ask('unitRepair', { unit })).toEqual(second);
    expect(await ask('unitRead', { unit })).toEqual(second);
    expect(readFileSync(inUnit('damaged', '3.json'), 'utf8')).toBe('{"torn');
    for (const file of ['unit.json', 'revisions/1.json', 'revisions/2.json']) writeFileSync(inUnit(file), '{"');
    const lost: unknown = await ask('unitRepair', { unit }).catch((error: unknown) => error);
    expect(lost).toMatchObject({
      code: 'UNIT_UNREADABLE',
      message: expect.stringMatching(/^No revision of .* is whole/),
      remedy: expect.stringMatching(/^No photo lies with it\..*Save what is left.*begin a new unit/),
    });
    expect(JSON.stringify([lost, (lost as Error).message])).not.toContain(folder);
    const left = await ask('unitLeftovers', { unit });
    expect(left).toMatchObject({ name: `${unit}-left.zip`, photos: 0, damagedPhotos: 0, unreadable: 0 });
    expect(await zipContents(left.bytes)).toHaveProperty(['records/damaged/3.json'], '{"torn');
    await expect(ask('unitRepair', { unit: 'nowhere' })).rejects.toMatchObject({ code: 'UNIT_UNKNOWN' });
  });

  it('[BE16] says what can be done on the screen, where the command line would name a command', async () => {
    const { ask } = bench;
    const { id: unit } = await ask('unitCreate', { name: 'M-4', like: null });
    const remedyOf = async (asked: Promise<unknown>): Promise<string> => {
      const failure = await asked.then(String, (error: unknown) => error);
      expect(failure).toBeInstanceOf(AppError);
      return (failure as AppError).remedy;
    };
    const edits = [{ kind: 'set', field: 'trials[nowhere].light', text: 'filament' }] as const;
    const remedies = [
      await remedyOf(ask('unitRestore', { unit, which: 'undo' })),
      await remedyOf(ask('unitRestore', { unit, which: 'redo' })),
      await remedyOf(ask('unitEdit', { unit, edits })),
    ];
    writeFileSync(path.join(place, 'units', unit, 'revisions', '1.json'), '{"');
    writeFileSync(path.join(place, 'units', unit, 'unit.json'), '{"');
    remedies.push(await remedyOf(ask('unitRead', { unit })));
    expect(remedies).toEqual([
      expect.stringContaining('as it began'),
      expect.stringContaining('time line'),
      expect.stringContaining('look at the unit'),
      expect.stringContaining('revision that is whole'),
    ]);
    expect(remedies.join(' ')).not.toMatch(/evendial |--/);
  });

  it('[BE16] leaves a remedy that names no command as it is, and puts one that does into words by its code', () => {
    const told = (remedy: string, code = 'BOOK_NOT_USABLE'): unknown =>
      toldToPage(new AppError('book', code, 'm', remedy), new Book(place));
    expect(told('Make room on the disk.')).toMatchObject({ remedy: 'Make room on the disk.' });
    expect(told('Use another (--book DIR).')).toMatchObject({ remedy: expect.stringMatching(/^See that/) as string });
    expect(told(`Delete the file ${place}/units/a/lock.`)).toMatchObject({ remedy: 'Delete the file units/a/lock.' });
    const defect = new Error('defect');
    expect(toldToPage(defect, new Book(place))).toBe(defect);
  });
});
