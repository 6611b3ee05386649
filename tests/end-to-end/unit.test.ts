import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { runUnit } from '../../core/node/cli/unit/unit';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCommand } from '../support/run-command';
import { scalePhoto } from '../support/scale-photo';

const home = fileURLToPath(new URL('../..', import.meta.url));
const corners = '50,30 510,30 510,120 50,120';
let bench: string;

interface Run {
  readonly code: number;
  readonly out: string;
  readonly told: string;
}

async function run(...words: string[]): Promise<Run> {
  const { code, out, err } = await runCommand(runUnit, words, bench);
  return { code, out, told: err };
}

async function json<T = { readonly id: string }>(...words: string[]): Promise<T> {
  const { code, out, told } = await run(...words, '--book', 'book', '--json');
  expect([code, told]).toEqual([0, '']);
  return JSON.parse(out) as T;
}

beforeAll(async () => {
  bench = mkdtempSync(path.join(tmpdir(), 'evendial unit '));
  writeFileSync(path.join(bench, 'filament.png'), await scalePhoto(20));
  writeFileSync(path.join(bench, 'try 1.png'), await scalePhoto(90));
  writeFileSync(path.join(bench, 'notes.txt'), 'this is no photo');
});
afterAll(() => rmSync(bench, { recursive: true }));

describe('evendial unit', () => {
  it('[BK24] keeps a swap from the first note to the chosen trial, measures it, and tells what happened', async () => {
    const { id } = await json('new', 'Larkfield T-60');
    await json('add-window', id, 'scale', '--size', '46x9', '--print', 'none');
    await json('set', id, 'before.supply.kind=AC', 'photography.room=dark', 'notes=begun = in May');
    await json('add-trial', id, 'LEDs 8 mm', '--light', 'warm-white');
    await json('set', id, 'trials[LEDs 8 mm].lamps[left].positionMm=11.5,4.5,8');
    await json('add-trial', id, 'Mirrored', '--like', 'LEDs 8 mm', '--mirror-to', 'scale');
    await json('add-photo', id, 'filament.png', '--role', 'reference', '--corners', corners);
    await json('add-photo', id, 'try 1.png', '--role', 'trial:LEDs 8 mm', '--corners', corners, '--window', 'scale');
    const readings = await json('measure', id);
    const files = [[{ photos: [{ file: 'try 1.png' }] }], [{ photos: [{ file: 'filament.png' }] }]];
    expect(readings).toMatchObject({
      format: 'evendial-readings',
      version: 1,
      readings: files[0],
      reference: files[1],
    });
    const chosen = await json<{ readings: { trial: string | null; evenness: { value: number } }[] }>(
      'choose-trial',
      'larkfield t-60',
      'LEDs 8 mm',
      '--why',
      'even enough',
    );
    expect(chosen).toMatchObject({
      format: 'evendial-unit',
      notes: 'begun = in May',
      before: { supply: { kind: 'AC' } },
      trials: [{ name: 'LEDs 8 mm' }, { name: 'Mirrored', lamps: [{ name: 'left', positionMm: [34.5, 4.5, 8] }] }],
      chosen: { trial: 'LEDs 8 mm', why: 'even enough' },
    });
    expect(chosen.readings.map(({ trial }) => trial)).toEqual([null, 'LEDs 8 mm']);
    expect(chosen.readings[0].evenness.value).toBeGreaterThan(chosen.readings[1].evenness.value);
    expect(existsSync(path.join(bench, 'book', 'units', id, 'derived', 'readings.json'))).toBe(true);
    const { entries } = await json<{ entries: { changes: unknown[] }[] }>('timeline', id);
    expect(entries.map(({ changes }) => changes.length)).toEqual([0, 1, 3, 1, 1, 1, 1, 1, 2, 1]);
    expect(await json('undo', id)).not.toHaveProperty('chosen');
    expect(await json('redo', id)).toMatchObject({ chosen: { trial: 'LEDs 8 mm' }, revision: 12 });
    expect(await json('list', '--search', 'even ENOUGH')).toMatchObject({
      format: 'evendial-units',
      units: [{ id, name: 'Larkfield T-60', windows: ['scale'], trials: 2, photos: 2, chosen: 'LEDs 8 mm' }],
    });
    expect(await json('check')).toEqual({ format: 'evendial-check', version: 1, units: 1, findings: [] });
  });

  it('[BK24] prints the same for reading, to 100 columns', async () => {
    for (const words of [['list'], ['show', 'larkfield'], ['timeline', 'larkfield'], ['check']]) {
      const { code, out } = await run(...words, '--book', 'book');
      expect(code).toBe(0);
      expect(out).toMatch(/Larkfield T-60|revision 12|1 unit checked: everything saved is whole/);
      expect(out.split('\n').filter((line) => line.length > 100)).toEqual([]);
    }
  });

  it('[BK22] a unit goes through one file into another book', async () => {
    const { id } = await json('show', 'larkfield');
    expect(await json('export', id, 'out/t-60.evendial')).toMatchObject({ unit: id, photos: 2, shared: false });
    const archive = path.join('out', 't-60.evendial');
    const tried = await run('import', archive, '--dry-run', '--book', 'other', '--json');
    expect(JSON.parse(tried.out)).toMatchObject({ written: false, dryRun: true, photos: 2 });
    expect(existsSync(path.join(bench, 'other'))).toBe(false);
    expect((await run('import', archive, '--book', 'other')).out).toMatch('is in the book');
    const [from, to] = ['book', 'other'].map((book) => path.join(bench, book, 'units', id));
    expect(readdirSync(path.join(to, 'photos'))).toEqual(readdirSync(path.join(from, 'photos')));
    expect(readFileSync(path.join(to, 'unit.json'))).toEqual(readFileSync(path.join(from, 'unit.json')));
  });

  it('[BK22] --out names the file too; one that is there is left as it is, also to be shared', async () => {
    const { id } = await json('show', 'larkfield');
    expect(await json('export', id, '--out', 'out/again.evendial')).toMatchObject({ file: 'out/again.evendial' });
    const [first, again] = ['t-60', 'again'].map((name) => readFileSync(path.join(bench, 'out', `${name}.evendial`)));
    expect(again.equals(first)).toBe(true);
    writeFileSync(path.join(bench, 'mine.evendial'), 'mine');
    for (const words of [['mine.evendial'], ['--out', 'mine.evendial'], ['--out', 'mine.evendial', '--share']]) {
      const { code, told } = await run('export', id, ...words, '--book', 'book');
      expect([code, told]).toEqual([2, expect.stringMatching(/^mine\.evendial is there already\n.*another name/)]);
    }
    expect(readFileSync(path.join(bench, 'mine.evendial'), 'utf8')).toBe('mine');
  });

  it('[BK29] names the photos as the record does, also one that is gone', async () => {
    const { id } = await json('show', 'larkfield');
    const { out } = await run('measure', id, '--book', 'book');
    expect(out).toMatch(/ {2}try 1\.png; \d+ x/);
    const photos = path.join(bench, 'book', 'units', id, 'photos');
    const sums = await json<{ photos: { name: string; sha256: string }[] }>('show', id);
    const sum = sums.photos.find(({ name }) => name === 'try 1.png')?.sha256;
    const [there, gone] = [path.join(photos, `${sum}.png`), path.join(bench, 'gone.png')];
    renameSync(there, gone);
    const without = await run('measure', id, '--book', 'book');
    renameSync(gone, there);
    expect(without.code).toBe(3);
    expect(without.out).toContain('try 1.png does not exist');
    expect(`${out}${without.out}${without.told}`).not.toMatch(/[0-9a-f]{64}/);
  });

  it('[BK25] uses the book in the data folder where none is named', () => {
    const env = { ...process.env, INIT_CWD: '', XDG_DATA_HOME: path.join(bench, 'data') };
    const program = [path.join(home, 'dist', 'evendial.cjs'), 'unit', 'new', 'Elsewhere'];
    const done = spawnSync(process.execPath, program, { cwd: bench, env, encoding: 'utf8' });
    expect([done.status, done.stdout]).toEqual([0, expect.stringMatching(/^"Elsewhere" is in the book/)]);
    expect(readdirSync(path.join(bench, 'data', 'evendial', 'book'))).toContain('units');
  });

  it.each<[number, RegExp, string[]]>([
    [2, /lacks a command|needs a command/, []],
    [2, /Did you mean 'evendial unit show'/, ['shows', 'x']],
    [2, /lacks a word[^]*add-window UNIT NAME/, ['add-window', 'larkfield']],
    [2, /no unit "nobody"/, ['show', 'nobody']],
    [2, /the window has no size/, ['add-window', 'larkfield', 'meter']],
    [2, /there is a window "scale" already/, ['add-window', 'larkfield', 'scale', '--size', '9x9']],
    [2, /Known here: [^]*ratedMa/, ['set', 'larkfield', 'before.lamp.colour=red']],
    [2, /not key=value/, ['set', 'larkfield', 'notes']],
    [2, /the photo has no role/, ['add-photo', 'larkfield', 'try 1.png']],
    [2, /no trial "New"[^]*"LEDs 8 mm"/, ['add-photo', 'larkfield', 'try 1.png', '--role', 'trial:New']],
    [3, /notes\.txt[^]*not a picture/, ['add-photo', 'larkfield', 'notes.txt', '--role', 'reference']],
    [3, /none\.png/, ['add-photo', 'larkfield', 'none.png', '--role', 'other']],
    [2, /no trial "New"/, ['measure', 'larkfield', 'New']],
    [2, /has no photo/, ['measure', 'larkfield', 'Mirrored']],
    [2, /notes\.txt is refused/, ['import', 'notes.txt']],
    [2, /no file to go to[^]*--out FILE\.evendial/, ['export', 'larkfield']],
    [2, /Name the file once/, ['export', 'larkfield', 'a.evendial', '--out', 'b.evendial']],
    [2, /notes\.txt\/a\.evendial cannot be written/, ['export', 'larkfield', '--out', 'notes.txt/a.evendial']],
  ])('[BK24] ends with %i and says %s', async (expected, message, words) => {
    const { code, out, told } = await run(...words, ...(words.length > 0 ? ['--book', 'book'] : []));
    expect([code, out]).toEqual([expected, '']);
    expect(told).toMatch(message);
  });

  it('[BK24] ends with 6 when a unit is damaged or too new, and lists the others', async () => {
    const { id } = await json('new', 'M-4');
    const place = path.join(bench, 'book', 'units', id, 'revisions', '2.json');
    writeFileSync(place, '{"format":"evendial-unit","version":99}');
    expect(await run('show', id, '--book', 'book')).toMatchObject({
      code: 6,
      told: expect.stringMatching('version 99') as string,
    });
    const listed = await run('list', '--book', 'book', '--json');
    expect(listed.code).toBe(6);
    expect((JSON.parse(listed.out) as { units: unknown[] }).units).toHaveLength(2);
    writeFileSync(place, 'torn');
    expect(await run('check', '--book', 'book')).toMatchObject({ code: 6 });
    expect(await run('check', '--repair', '--book', 'book')).toMatchObject({ code: 0 });
    expect(await run('check', '--book', 'book')).toMatchObject({ code: 0, told: '' });
  });
});
