import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { AppError } from '../../core/base/errors';
import type { BenchPhoto, HelpersAsked, MeasureAsked, PhotoAsked } from '../../core/contract/bench';
import type { AddedArchive, FiledAs } from '../../core/contract/book-verbs';
import type { Figure } from '../../core/contract/figure';
import type { UnitPhoto, UnitRecord } from '../../core/contract/unit-record';
import { originalPath } from '../../core/book/unit-series';
import { Book } from '../../core/node/book/book';
import { runUnit } from '../../core/node/cli/unit/unit';
import { startBookHost, type BookHost } from '../support/book-host';
import { runCommand } from '../support/run-command';
import { scaleCorners, scalePhoto } from '../support/scale-photo';

const folder = mkdtempSync(path.join(tmpdir(), 'evendial filing '));
const place = path.join(folder, 'book');
const peaks = { 'filament.png': 20, 'bare.png': 90, 'paper.png': 50, 'tape.png': 30 };
let bench: BookHost;
const laid = new Map<string, BenchPhoto>();
const idOf = (file: string): string => laid.get(file)!.id;

beforeAll(async () => {
  for (const [file, peak] of Object.entries(peaks)) writeFileSync(path.join(folder, file), await scalePhoto(peak));
  writeFileSync(path.join(folder, 'off.png'), await scalePhoto(0, 0));
  bench = startBookHost(new Book(place));
  for (const file of [...Object.keys(peaks), 'off.png'])
    laid.set(file, await bench.host.addPhoto(path.join(folder, file)));
});
afterAll(async () => {
  await bench.close();
  rmSync(folder, { recursive: true, force: true });
});

const withLampOff = (): HelpersAsked => ({ lampOff: idOf('off.png'), flatField: null, printPhoto: null });

function photoAsked(file: string, light: PhotoAsked['light'], helpers = withLampOff()): PhotoAsked {
  const sizeMm = { widthMm: 46, heightMm: 9 };
  const patches = { leaveOut: [], paintedRed: [], paintedDark: [] };
  const window = { cornersPx: scaleCorners, sizeMm, shape: { kind: 'rectangle' }, print: 'none', ...patches } as const;
  return { photo: idOf(file), window, light, helpers };
}
function trialAsked(file: string): MeasureAsked {
  const reference = photoAsked('filament.png', 'filament');
  return { ...photoAsked(file, 'warm-white'), room: 'dark', viewingDistanceMm: 600, reference };
}
/** As it is measured before anybody has said what shape the window has. */
function shapeLeftToSearch(asked: MeasureAsked): MeasureAsked {
  return { ...asked, window: { ...asked.window, shape: null } };
}
const referenceAsked = (): MeasureAsked => ({ ...trialAsked('filament.png'), light: 'filament', reference: null });
const noHelpers: HelpersAsked = { lampOff: null, flatField: null, printPhoto: null };
const offAsked = (): MeasureAsked => ({
  ...referenceAsked(),
  ...photoAsked('off.png', 'unknown', noHelpers),
});

const trials = ['bare.png', 'paper.png', 'tape.png'];
const trialNamed = (file: string): string => `With ${path.parse(file).name}`;
const asTrial = (unit: string, file: string): FiledAs => ({
  unit,
  window: 'scale',
  role: 'trial',
  trial: trialNamed(file),
});

async function unitLine(...words: string[]): Promise<string> {
  const { code, out, err } = await runCommand(runUnit, [...words, '--book', place, '--json'], folder);
  expect([code, err]).toEqual([0, '']);
  return out;
}
/** As a document of the command line has it: six figures. */
const printed = ({ value, plusMinus }: Figure): unknown => ({
  value: Number(value?.toPrecision(6)),
  plusMinus: Number(plusMinus?.toPrecision(6)),
});
const withoutVersion = (text: string): string => text.replace(/vendial \d[\d.]*/g, 'vendial');
const ofAnyProgram = (unit: UnitRecord): unknown[] =>
  untimed(unit).map((reading) => ({ ...(reading as object), program: expect.any(String) as string }));
const untimed = (unit: UnitRecord): unknown[] => unit.readings.map((reading) => ({ ...reading, measuredAt: '' }));

describe('photos of the bench in a unit', () => {
  let unit: string;

  it('[BE17] files reference, lamp-off photo and trials as one revision, with the figures of unit measure', async () => {
    const { ask } = bench;
    unit = (await ask('unitCreate', { name: 'Larkfield T-60', like: null })).id;
    const trialOf = (file: string): MeasureAsked =>
      file === 'paper.png' ? shapeLeftToSearch(trialAsked(file)) : trialAsked(file);
    for (const file of trials.slice(0, 2)) await ask('measure', trialOf(file));
    const filingBegan = new Date().toISOString();
    const filed = [
      { measure: referenceAsked(), unit, window: 'scale', role: 'reference', trial: null },
      { measure: offAsked(), unit, window: 'scale', role: 'lamp-off', trial: null },
      ...trials.map((file) => ({ measure: trialOf(file), ...asTrial(unit, file) })),
    ] as const;
    const record = await ask('fileReadings', { filed }, 'filing');
    expect(record.revision).toBe(2);
    expect(record.windows).toEqual([{ name: 'scale', widthMm: 46, heightMm: 9, print: 'none' }]);
    expect(record.photography).toEqual({ room: 'dark', viewingDistanceMm: 600 });
    expect(record.trials.map(({ name }) => name)).toEqual(trials.map(trialNamed));
    expect(record.photos.map(({ name, role }) => [name, role])).toEqual([
      ['filament.png', 'reference'],
      ['off.png', 'lamp-off'],
      ...trials.map((file) => [file, 'trial']),
    ]);
    expect(record.photos[2]).toMatchObject({ light: 'warm-white', corners: { scale: scaleCorners } });
    expect(record.readings.map(({ trial, window }) => [trial, window])).toEqual([
      [null, 'scale'],
      ...trials.map((file) => [trialNamed(file), 'scale']),
    ]);
    // What is measured already is not measured again, though the record states the shape that the search found.
    expect(record.readings.map(({ measuredAt }) => measuredAt < filingBegan)).toEqual([false, true, true, false]);
    for (const { name, sha256, ending } of record.photos) {
      const original = path.join(place, 'units', unit, 'photos', `${sha256}.${ending}`);
      expect(readFileSync(original).equals(readFileSync(path.join(folder, name)))).toBe(true);
    }
    expect(bench.events.some((event) => event.type === 'progress' && event.call === 'filing')).toBe(true);
    type Document = { readings: { evenness: { score: Figure } }[] };
    const { readings } = JSON.parse(await unitLine('measure', unit)) as Document;
    const ofTrials = record.readings.slice(1).map(({ evenness }) => evenness);
    expect(readings.map(({ evenness }) => evenness.score)).toEqual(ofTrials.map(printed));
    expect(untimed(await ask('unitRead', { unit }))).toEqual(ofAnyProgram(record));
  }, 300_000);

  it('[BE17] the same photo again changes nothing but its reading, and is kept once', async () => {
    const before = await bench.ask('unitRead', { unit });
    const filed = [{ measure: trialAsked('tape.png'), ...asTrial(unit, 'tape.png') }];
    const record = await bench.ask('fileReadings', { filed });
    expect(record.photos).toEqual(before.photos);
    expect(await readdir(path.join(place, 'units', unit, 'photos'))).toHaveLength(5);
  }, 180_000);

  it('[BE17] takes along the photos that a trial was measured with, and reads it as the window of the record is', async () => {
    const { ask } = bench;
    const { id: other } = await ask('unitCreate', { name: 'Another', like: null });
    const edits = [
      { kind: 'add-window', window: { name: 'scale', widthMm: 23, heightMm: 4.5, print: 'none' } },
    ] as const;
    await ask('unitEdit', { unit: other, edits });
    const filed = [{ measure: trialAsked('bare.png'), ...asTrial(other, 'bare.png') }];
    const record = await ask('fileReadings', { filed });
    expect(record.windows[0].widthMm).toBe(23);
    expect(record.photos.map(({ name, role, trial }) => [name, role, trial])).toEqual([
      ['bare.png', 'trial', 'With bare'],
      ['off.png', 'lamp-off', 'With bare'],
      ['filament.png', 'reference', undefined],
    ]);
    const [{ evenness }] = record.readings;
    const wide = (await ask('unitRead', { unit })).readings.find(({ trial }) => trial === 'With bare');
    // Half as large, the same unevenness is finer, and seen otherwise.
    expect(evenness.value).not.toBe(wide?.evenness.value);
  }, 180_000);

  it('[BE17] reads photos in the room and from the distance of the record, whatever the page has', async () => {
    const { ask } = bench;
    const { id } = await ask('unitCreate', { name: 'Looked at from near', like: null });
    await new Book(place).edit(id, (record) => ({ ...record, photography: { viewingDistanceMm: 300 } }));
    const filed = [
      { measure: trialAsked('bare.png'), ...asTrial(id, 'bare.png') },
      // The first says what the record does not.
      { measure: { ...trialAsked('tape.png'), room: 'lit' as const }, ...asTrial(id, 'tape.png') },
    ];
    const record = await ask('fileReadings', { filed });
    expect(record.photography).toEqual({ viewingDistanceMm: 300, room: 'dark' });
    await unitLine('measure', id);
    const remeasured = await ask('unitRead', { unit: id });
    expect(untimed({ ...remeasured, readings: remeasured.readings.filter(({ trial }) => trial !== null) })).toEqual(
      ofAnyProgram(record),
    );
  }, 180_000);

  it.each<[string, (unit: string) => { measure: MeasureAsked } & FiledAs]>([
    ['FILED_WITHOUT_TRIAL', (id) => ({ measure: trialAsked('bare.png'), ...asTrial(id, 'bare.png'), trial: null })],
    [
      'FILED_WITH_TRIAL',
      (id) => ({ measure: referenceAsked(), ...asTrial(id, 'bare.png'), role: 'reference' as const }),
    ],
    [
      'WINDOW_SIZE_MISSING',
      (id) => {
        const measure = trialAsked('bare.png');
        return { measure: { ...measure, window: { ...measure.window, sizeMm: null } }, ...asTrial(id, 'bare.png') };
      },
    ],
    [
      'PHOTO_NOT_ON_BENCH',
      (id) => ({ measure: { ...trialAsked('bare.png'), photo: 'nowhere' }, ...asTrial(id, 'bare.png') }),
    ],
    ['UNIT_UNKNOWN', () => ({ measure: trialAsked('bare.png'), ...asTrial('no-such-unit', 'bare.png') })],
  ])('[BE17] refuses %s and changes nothing', async (code, filed) => {
    const { ask } = bench;
    const { id } = await ask('unitCreate', { name: 'Empty', like: null });
    await expect(ask('fileReadings', { filed: [filed(id)] })).rejects.toMatchObject({ code });
    expect(await ask('unitRead', { unit: id })).toMatchObject({ revision: 1, photos: [] });
  });

  it('[BE17] a cancelled filing changes no record', async () => {
    const { ask, host } = bench;
    const { id } = await ask('unitCreate', { name: 'Cancelled', like: null });
    // Read by no engine yet: another window.
    const measure = trialAsked('paper.png');
    const other = { ...measure, window: { ...measure.window, sizeMm: { widthMm: 40, heightMm: 8 } } };
    const filing = ask('fileReadings', { filed: [{ measure: other, ...asTrial(id, 'paper.png') }] }, 'to-be-cancelled');
    const stop = host.onEvent((event) => {
      if (event.type === 'progress') void host.call('cancel', 'c', { call: 'to-be-cancelled' });
    });
    await expect(filing).rejects.toMatchObject({ kind: 'cancelled' });
    stop();
    expect(await ask('unitRead', { unit: id })).toMatchObject({ revision: 1, photos: [] });
  });

  it('[BE18] lays the photos of a window with all that the record says, those that lie there under their ids', async () => {
    const { ask, host } = bench;
    const entries = await ask('layUnit', { unit, window: 'scale' });
    expect(entries.map(({ role, trial }) => [role, trial])).toEqual([
      ['reference', null],
      ...trials.map((file) => ['trial', trialNamed(file)]),
      ['lamp-off', null],
    ]);
    const [reference, bare] = entries;
    const lampOff = entries[4].photo.id;
    expect(reference.asked.helpers.lampOff).toBe(lampOff);
    expect(bare.photo).toMatchObject({ name: 'bare.png', isSample: false });
    expect(bare.asked).toEqual({
      ...trialAsked('bare.png'),
      photo: bare.photo.id,
      helpers: { ...noHelpers, lampOff },
      reference: {
        ...photoAsked('filament.png', 'filament'),
        photo: reference.photo.id,
        helpers: { ...noHelpers, lampOff },
      },
    });
    const { reading } = await ask('measure', bare.asked);
    const filed = (await ask('unitRead', { unit })).readings.find(({ trial }) => trial === 'With bare');
    expect(reading.evenness.score).toEqual(filed?.evenness);
    expect((await ask('layUnit', { unit, window: 'scale' })).map(({ photo }) => photo.id)).toEqual(
      entries.map(({ photo }) => photo.id),
    );
    await expect(ask('layUnit', { unit, window: 'dial' })).rejects.toMatchObject({ code: 'WINDOW_UNKNOWN' });
    expect(JSON.stringify(entries)).not.toContain(folder);
    await host.call('removePhotos', 'r', { photos: entries.map(({ photo }) => photo.id) });
    expect(await readdir(path.join(place, 'units', unit, 'photos'))).toHaveLength(5);
  }, 180_000);

  it('[BE17, BE18] what a record states of encoding and exposure is kept to on the bench, and filed with the photo', async () => {
    const { ask } = bench;
    const { id: developed } = await ask('unitCreate', { name: 'Developed from raw', like: null });
    await ask('fileReadings', { filed: [{ measure: trialAsked('bare.png'), ...asTrial(developed, 'bare.png') }] });
    const stated = { encoding: 'linear', exposureS: 0.5, fNumber: 4, iso: 100 } as const;
    // Of the lamp-off photo nothing is stated: it is read as the photo is.
    const state = (photo: UnitPhoto): UnitPhoto => (photo.role === 'lamp-off' ? photo : { ...photo, ...stated });
    const before = await ask('layUnit', { unit: developed, window: 'scale' });
    const book = new Book(place);
    await book.edit(developed, (record) => ({ ...record, photos: record.photos.map(state) }));
    const laidAgain = await ask('layUnit', { unit: developed, window: 'scale' });
    const trial = laidAgain.find(({ role }) => role === 'trial')!;
    // It would have other figures under its first id.
    expect(before.map(({ photo }) => photo.id)).not.toContain(trial.photo.id);
    const { reading } = await ask('measure', trial.asked);
    expect(reading.photos[0]).toMatchObject({ encoding: 'linear', camera: { exposureS: 0.5, fNumber: 4, iso: 100 } });
    type Document = { readings: { evenness: { score: Figure } }[] };
    const { readings } = JSON.parse(await unitLine('measure', developed, 'With bare')) as Document;
    expect(readings.at(-1)?.evenness.score).toEqual(printed(reading.evenness.score));
    const { id: other } = await ask('unitCreate', { name: 'Filed from there', like: null });
    const { photos } = await ask('fileReadings', { filed: [{ measure: trial.asked, ...asTrial(other, 'bare.png') }] });
    expect(photos[0]).toMatchObject(stated);
    expect(photos.find(({ role }) => role === 'lamp-off')).not.toHaveProperty('encoding');
    await bench.host.call('removePhotos', 'r', { photos: [...before, ...laidAgain].map(({ photo }) => photo.id) });
  }, 180_000);

  it('[BE20] a small picture of the window, seen straight on, is made once and again when it is gone', async () => {
    const { ask } = bench;
    const derived = path.join(place, 'units', unit, 'derived');
    const asked = { unit, sha256: null, window: null };
    const made = await ask('unitThumbnail', asked);
    // 92 x 18 mm over 320 pixels.
    expect(made).toMatchObject({ width: 320, height: 63, photoWidthPx: 560, photoHeightPx: 150 });
    const middle = (320 * 31 + 160) * 4;
    const [red, green, blue] = made!.rgba.subarray(middle, middle + 3);
    expect(red).toBeGreaterThan(140);
    expect([green / red, blue / red].map((share) => Math.round(20 * share) / 20)).toEqual([0.85, 0.6]);
    const [kept] = (await readdir(derived)).filter((name) => name.startsWith('thumbnail-'));
    expect(await ask('unitThumbnail', asked)).toEqual(made);
    writeFileSync(path.join(derived, kept), 'torn');
    expect(await ask('unitThumbnail', asked)).toEqual(made);
    rmSync(derived, { recursive: true });
    expect(await ask('unitThumbnail', asked)).toEqual(made);
    // The reference stood for the unit; bare LEDs are brighter in the middle.
    const edits = [{ kind: 'choose-trial', trial: 'With bare', why: '' }] as const;
    const { photos } = await ask('unitEdit', { unit, edits });
    expect((await ask('unitThumbnail', asked))!.rgba[middle]).toBeGreaterThan(red + 20);
    const { sha256 } = photos.find(({ role }) => role === 'reference')!;
    expect(await ask('unitThumbnail', { unit, sha256, window: 'scale' })).toEqual(made);
    expect(await ask('unitThumbnail', { unit, sha256: 'f'.repeat(64), window: null })).toBeNull();
    const { id: empty } = await ask('unitCreate', { name: 'Empty', like: null });
    expect(await ask('unitThumbnail', { ...asked, unit: empty })).toBeNull();
  }, 180_000);

  it('[BE19] prints the sheet and packs the unit with the bytes of the command line', async () => {
    const { ask } = bench;
    const asked = { unit, form: 'html', paper: 'A4', share: false } as const;
    const page = await ask('unitSheet', asked, 'sheet');
    expect(page).toMatchObject({ name: `${unit}.html`, mediaType: 'text/html' });
    await unitLine('sheet', unit, '--out', 'sheet.html');
    const line = readFileSync(path.join(folder, 'sheet.html'), 'utf8');
    const written = Buffer.from(page.bytes).toString('utf8');
    expect(withoutVersion(written)).toBe(withoutVersion(line));
    expect(written).toContain('With paper');
    const pdf = await ask('unitSheet', { ...asked, form: 'pdf', paper: 'Letter', share: true });
    expect(Buffer.from(pdf.bytes).subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(bench.events.some((event) => event.type === 'progress' && event.call === 'sheet')).toBe(true);
    const archive = await ask('unitExport', { unit, share: false });
    await unitLine('export', unit, 'unit.evendial');
    expect(Buffer.from(archive.bytes).equals(readFileSync(path.join(folder, 'unit.evendial')))).toBe(true);
    expect(archive).toMatchObject({ name: `${unit}.evendial`, leftOut: [] });
  }, 300_000);

  it('[BE23] the sheet is measured once for all its forms; what its figures come from makes it measured anew', async () => {
    const { ask } = bench;
    const asked = { unit, form: 'html', paper: 'A4', share: false } as const;
    let calls = 0;
    const measuredFor = async (form: 'html' | 'pdf', share = false): Promise<[photos: number, page: string]> => {
      const call = `sheet-of-last-${++calls}`;
      const { bytes } = await ask('unitSheet', { ...asked, form, share }, call);
      const files = bench.events.flatMap((event) =>
        event.type === 'progress' && event.call === call ? [event.progress.file] : [],
      );
      return [new Set(files).size, Buffer.from(bytes).toString('utf8')];
    };
    const { photos, windows } = await ask('unitRead', { unit });
    const inAll = photos.filter(({ role }) => role === 'reference' || role === 'trial').length;
    await measuredFor('html');
    expect((await measuredFor('pdf'))[0]).toBe(0);
    expect((await measuredFor('html', true))[0]).toBe(0);
    await ask('unitEdit', { unit, edits: [{ kind: 'set', field: 'notes', text: 'typed since' }] });
    const [after, page] = await measuredFor('html');
    expect(after).toBe(0);
    expect(page).toContain('typed since');

    const { name, widthMm } = windows[0];
    await ask('unitEdit', {
      unit,
      edits: [{ kind: 'set', field: `windows[${name}].widthMm`, text: `${widthMm + 1}` }],
    });
    const [again, wider] = await measuredFor('html');
    expect(again).toBe(inAll);
    expect(wider).toContain(`${widthMm + 1} × `);
    await ask('unitRestore', { unit, which: 'undo' });
    const [undone, narrow] = await measuredFor('html');
    expect(undone).toBe(inAll);
    const original = path.join(place, 'units', unit, originalPath(photos[0]));
    const bytes = readFileSync(original);
    rmSync(original);
    expect((await measuredFor('html'))[1]).not.toBe(narrow);
    writeFileSync(original, bytes);
    expect((await measuredFor('html'))[1]).toBe(narrow);
  }, 300_000);

  it('[BE19] a unit in one file comes into an empty book whole, and is measured there as here', async () => {
    const { ask } = bench;
    const archive = path.join(folder, 'dropped');
    writeFileSync(archive, (await ask('unitExport', { unit, share: false })).bytes);
    const other = startBookHost(new Book(path.join(folder, 'other book')));
    try {
      // By what is in it, whatever it is called.
      const added = (await other.host.addFile(archive, 'larkfield.zip')) as AddedArchive;
      expect(added).toEqual({ archive: expect.any(String), name: 'larkfield.zip' });
      const record = await other.ask('unitImport', { upload: added.archive }, 'import');
      expect(record).toEqual(await ask('unitRead', { unit }));
      expect(other.events.some((event) => event.type === 'progress' && event.call === 'import')).toBe(true);
      const entries = await other.ask('layUnit', { unit, window: 'scale' });
      const { reading } = await other.ask('measure', entries[1].asked);
      expect(reading.evenness.score).toEqual(record.readings[1].evenness);
      await expect(other.ask('unitImport', { upload: added.archive })).rejects.toMatchObject({ code: 'ARCHIVE_GONE' });
      const again = (await other.host.addFile(archive, 'again.evendial')) as AddedArchive;
      expect(await other.ask('unitImport', { upload: again.archive })).toEqual(record);
      writeFileSync(archive, 'no unit');
      const torn = (await other.host.addFile(archive, 'torn.evendial')) as AddedArchive;
      await expect(other.ask('unitImport', { upload: torn.archive })).rejects.toMatchObject({
        code: 'ARCHIVE_REFUSED',
      });
      expect((await other.ask('bookList', { search: '' })).entries).toHaveLength(1);
      other.host.openArchive(archive);
      const { archives } = await other.ask('hello', {});
      expect(archives).toEqual([{ archive: expect.any(String), name: 'dropped' }]);
      expect(other.events.at(-1)).toEqual({ type: 'archive', added: archives[0] });
    } finally {
      await other.close();
    }
  }, 300_000);

  it('[BE19, BK26] a unit to be given away has neither its owner nor the names of its files', async () => {
    const { ask } = bench;
    const edits = [{ kind: 'set', field: 'owner', text: 'Somebody' }] as const;
    await ask('unitEdit', { unit, edits });
    const shared = await ask('unitExport', { unit, share: true });
    expect(shared).toMatchObject({ name: `${unit}-shared.evendial`, leftOut: [] });
    const archive = path.join(folder, 'shared.evendial');
    writeFileSync(archive, shared.bytes);
    const { archive: upload } = (await bench.host.addFile(archive)) as AddedArchive;
    const record = await ask('unitImport', { upload });
    expect(record).toMatchObject({ name: 'Larkfield T-60', revision: 1 });
    expect(record.owner).toBeUndefined();
    expect(record.photos.map(({ name }) => name)).not.toContain('bare.png');
    expect((await readdir(tmpdir())).filter((name) => name.startsWith('evendial-export-'))).toEqual([]);
  }, 180_000);

  describe('with a temporary folder of its own', () => {
    const temporary = path.join(folder, 'temporary');
    const usual = process.env['TMPDIR'];
    let other: BookHost;

    beforeEach(() => {
      mkdirSync(temporary);
      // Engines, which are started when they are needed, take it over.
      process.env['TMPDIR'] = temporary;
      other = startBookHost(new Book(place));
    });
    afterEach(async () => {
      await other.close();
      if (usual === undefined) delete process.env['TMPDIR'];
      else process.env['TMPDIR'] = usual;
      rmSync(temporary, { recursive: true, force: true });
    });
    const exporting = async (): Promise<string[]> =>
      (await readdir(temporary)).filter((name) => /export|share/.test(name));

    it('[BE19] a shared copy that is cancelled leaves nothing of the photos', async () => {
      const { ask, host } = other;
      host.onEvent((event) => {
        if (event.type === 'progress') void host.call('cancel', 'c', { call: 'no-copy' });
      });
      await expect(ask('unitExport', { unit, share: true }, 'no-copy')).rejects.toMatchObject({ kind: 'cancelled' });
      // The engine may be writing there still.
      await host.close();
      expect(await exporting()).toEqual([]);
    }, 180_000);

    it.each([true, false])('[BE4, BE19] no room for a file is said without its place (share: %s)', async (share) => {
      const { ask, host } = other;
      if (!share) rmSync(temporary, { recursive: true });
      // The folder is gone in the middle of the work, as a disk may be.
      host.onEvent((event) => {
        if (event.type !== 'progress') return;
        for (const name of readdirSync(temporary).filter((one) => one.startsWith('evendial-export')))
          rmSync(path.join(temporary, name), { recursive: true });
      });
      const refused = (await ask('unitExport', { unit, share }).catch((error: unknown) => error)) as AppError;
      expect(refused).toMatchObject({ code: 'FILE_NOT_WRITTEN', remedy: expect.stringMatching(/room/) as string });
      expect(`${refused.message} ${refused.remedy}`).not.toContain(temporary);
      mkdirSync(temporary, { recursive: true });
      expect(await exporting()).toEqual([]);
    });
  });

  it('[BE6] a sheet that is cancelled stops at once', async () => {
    const { ask, host } = bench;
    const asked = { unit, form: 'pdf', paper: 'A4', share: false } as const;
    // The last one would be there at once.
    await ask('unitEdit', { unit, edits: [{ kind: 'set', field: 'photography.viewingDistanceMm', text: '650' }] });
    const stop = host.onEvent((event) => {
      if (event.type === 'progress' && event.call === 'no-sheet') void host.call('cancel', 'c', { call: 'no-sheet' });
    });
    await expect(ask('unitSheet', asked, 'no-sheet')).rejects.toMatchObject({ kind: 'cancelled' });
    stop();
  }, 180_000);
});
