import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addPhoto } from '../../../core/book/edits';
import { problemsInRecord } from '../../../core/book/read-record';
import { sharedRecord, type SharedPhoto } from '../../../core/book/shared-record';
import { originalPath } from '../../../core/book/unit-series';
import type { UnitReading, UnitRecord } from '../../../core/contract/unit-record';
import { Book } from '../../../core/node/book/book';
import { importUnit } from '../../../core/node/book/import-unit';
import { sharedPhotoFile } from '../../../core/node/book/share-photo';
import { shareUnit } from '../../../core/node/book/share-unit';
import { createDecoder, type PhotoDecoder } from '../../../core/node/decode-process';
import { larkfieldUnit, photoEntry, savedAt } from '../../support/unit-records';

const { signal } = new AbortController();
/** As a photo may carry them; none may be in what is shared. */
const personal = ['Some Owner', 'SN-31415', 'at the bench', '2026:05:31', 'Lens 2718', 'Owner Filename'];
let folder: string;
let decoder: PhotoDecoder;

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial share '));
  decoder = createDecoder({ processes: 1 });
});
afterAll(async () => {
  await decoder.close();
  rmSync(folder, { recursive: true });
});

const [width, height] = [40, 20];
const pixels = Uint8Array.from({ length: width * height * 3 }, (_, i) => (i * 7 + (i % 11) * 3) % 256);

/** A wide-gamut photo, on its side, with everything personal that EXIF has room for. */
function personalPhoto(): Promise<Buffer> {
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .withIccProfile('p3')
    .withExif({
      IFD0: {
        Make: 'Brindle',
        Model: 'Q2',
        Artist: 'Some Owner',
        ImageDescription: 'at the bench',
        DateTime: '2026:05:31 18:00:00',
      },
      IFD2: {
        ExposureTime: '1/30',
        FNumber: '4/1',
        ISOSpeedRatings: '400',
        WhiteBalance: '0',
        FocalLength: '42/10',
        FocalLengthIn35mmFilm: '28',
        BodySerialNumber: 'SN-31415',
        LensSerialNumber: 'Lens 2718',
        CameraOwnerName: 'Some Owner',
        DateTimeOriginal: '2026:05:31 18:00:00',
      },
      IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1', GPSLongitudeRef: 'E', GPSLongitude: '7/1 0/1 0/1' },
    })
    .withMetadata({ orientation: 6 })
    .jpeg({ quality: 100, chromaSubsampling: '4:4:4' })
    .toBuffer();
}

async function sharedPhotos(
  sources: readonly string[],
): Promise<{ book: Book; id: string; into: Book; sharedId: string }> {
  const book = new Book(path.join(folder, 'book'));
  const { id } = await book.create('Larkfield T-60');
  for (const source of sources) {
    const { sha256, ending, bytes } = await book.keepOriginal(id, source, signal);
    const photo = { sha256, ending, bytes, name: path.basename(source), role: 'other' as const };
    await book.edit(id, (unit) => addPhoto({ ...unit, owner: 'Some Owner', serialNumber: 'SN-31415' }, photo));
  }
  const archive = path.join(folder, `${id}.evendial`);
  const shared = await shareUnit(book, id, archive, { decoder, signal });
  expect(shared.leftOut).toEqual(['notes.txt']);
  const into = new Book(path.join(folder, 'into'));
  await importUnit(into, archive, 'archive', { dryRun: false, signal });
  return { book, id, into, sharedId: shared.unit };
}

const exifTool = spawnSync('exiftool', ['-ver']).status === 0;

describe('shareUnit', () => {
  it.skipIf(!exifTool)(
    `[BK26] another program finds no place, person, day or serial number either${exifTool ? '' : ' (skipped: no exiftool)'}`,
    async () => {
      const source = path.join(folder, 'seen by another.jpg');
      writeFileSync(source, await personalPhoto());
      const said = (file: string): string => execFileSync('exiftool', ['-a', '-u', '-G1', file], { encoding: 'utf8' });
      const personalTags = /GPS|Owner|Artist|Serial|Image Description|Date\/Time Original|Some Owner/;
      expect(said(source)).toMatch(personalTags);
      const decoded = await decoder.decode(source, {});
      const shared = path.join(folder, 'shared.png');
      writeFileSync(shared, await sharedPhotoFile(decoded));
      expect(said(shared)).toMatch(/Exposure Time/);
      expect(said(shared)).not.toMatch(personalTags);
    },
  );

  it('[BK26] makes photos again with the same pixels and light, and without anything personal', async () => {
    const sources = ['Owner Filename.jpg', 'deep.png', 'notes.txt'].map((name) => path.join(folder, name));
    writeFileSync(sources[0], await personalPhoto());
    const deep = Uint16Array.from(pixels, (code, i) => code * 257 + (i % 13));
    const png = sharp(deep, { raw: { width, height, channels: 3 } })
      .toColourspace('rgb16')
      .png();
    writeFileSync(sources[1], await png.toBuffer());
    writeFileSync(sources[2], 'this is no photo');
    const { book, id, into, sharedId } = await sharedPhotos(sources);
    const [unit, shared] = [await book.read(id), await into.read(sharedId)];
    expect(shared.photos.map(({ name }) => name)).toEqual(['other 1.png', 'other 2.png']);
    expect(shared.photos[0]).toMatchObject({ exposureS: 1 / 30, fNumber: 4, iso: 400 });
    for (const [i, photo] of shared.photos.entries()) {
      const places = [
        path.join(book.unitFolder(id), originalPath(unit.photos[i])),
        path.join(into.unitFolder(sharedId), originalPath(photo)),
      ];
      const [before, after] = [await decoder.decode(places[0], {}), await decoder.decode(places[1], {})];
      expect(after.codes).toEqual(before.codes);
      expect(after.icc).toEqual(before.icc);
      const { camera, focalLength35Mm, widthPx, heightPx, bitDepth } = before.facts;
      const kept = Object.fromEntries(Object.entries(camera).filter(([key]) => key !== 'takenAt'));
      expect(after.facts).toMatchObject({
        camera: kept,
        widthPx,
        heightPx,
        bitDepth,
        ...(focalLength35Mm ? { focalLength35Mm } : {}),
      });
      expect(after.facts.camera).not.toHaveProperty('takenAt');
      const bytes = readFileSync(places[1]).toString('latin1');
      expect(personal.filter((word) => bytes.includes(word))).toEqual([]);
      expect((await sharp(places[1]).metadata()).exif?.includes('GPS') ?? false).toBe(false);
    }
    const text = readFileSync(path.join(into.unitFolder(sharedId), 'unit.json'), 'latin1');
    expect(personal.filter((word) => text.includes(word))).toEqual([]);
    const original = readFileSync(sources[0]).toString('latin1');
    expect(personal.slice(0, 5).filter((word) => !original.includes(word))).toEqual([]);
  });

  it('[BK26] the record keeps what was tried and chosen, and speaks only of photos that go along', () => {
    const unit = { ...larkfieldUnit(), photos: [...larkfieldUnit().photos, photoEntry('f')] };
    const made = new Map(
      ['a', 'b', 'c'].map((digit, i) => [
        digit.repeat(64),
        { sha256: String(i).repeat(64), ending: 'png', bytes: i + 1 },
      ]),
    );
    const own = { owner: 'Quillfeather', serialNumber: 'SN-77123', notes: 'Zebrawood cabinet', revision: 7, undo: 6 };
    const after = { hum: 'none', howToGoBack: 'Ask quillfeather first' };
    const shared = sharedRecord({ ...unit, ...own, restores: 5, after }, 'given-away', made);
    expect(JSON.stringify(shared)).not.toMatch(/quillfeather|77123|zebrawood/i);
    expect(shared.after).toEqual({ hum: 'none' });
    expect(problemsInRecord(shared)).toEqual([]);
    expect(shared).toMatchObject({
      id: 'given-away',
      revision: 1,
      undo: null,
      trials: unit.trials,
      chosen: unit.chosen,
    });
    expect(shared.photos.map(({ name, sha256, corners }) => [name, sha256[0], corners !== undefined])).toEqual([
      ['reference 1.png', '0', true],
      ['trial 2.png', '1', true],
      ['trial 3.png', '2', false],
    ]);
    expect([shared.owner, shared.serialNumber, shared.restores]).toEqual([undefined, undefined, undefined]);
  });

  /** Every list's choice, and a reading, whose words the program wrote. */
  function unitOfWrittenWords(): UnitRecord {
    const unit = larkfieldUnit();
    const noFigure = { value: null, plusMinus: null, reason: 'no reference was measured' } as const;
    const reading: UnitReading = {
      trial: null,
      window: 'scale',
      photo: 'a'.repeat(64),
      measuredAt: savedAt,
      program: 'evendial 0.9',
      evenness: { value: 61, plusMinus: 4 },
      evennessWords: 'uneven',
      redPrint: noFigure,
      redPrintWords: 'not told',
      toReferenceUv: noFigure,
      colourWords: 'amber',
      gates: [{ code: 'CLIPPED', level: 'warn' }],
    };
    const photos = unit.photos.map((photo) => ({ ...photo, light: 'warm-white', encoding: 'srgb' }) as const);
    const before = {
      supply: { ...unit.before?.supply, wiring: 'parallel' },
      light: { referenceLamp: 'tired', path: 'bounced', glass: 'off' },
    } as const;
    return { ...unit, photos, before, readings: [reading], after: { recheckOn: '2026-11-30' } };
  }
  const sumsOf = ({ photos }: UnitRecord): Map<string, SharedPhoto> =>
    new Map(photos.map(({ sha256 }) => [sha256, { sha256, ending: 'png', bytes: 7 }]));

  it.each([
    ...['Eve', 'Unit', '2026', 'aaa', 'png', 'Dark', 'Ellipse', 'white', 'srgb', 'trial', 'parallel', 'tired'],
    ...['bounced', 'off', 'evendial', 'uneven', 'told', 'amber', 'measured', 'clip', 'warn', '-30', 'Given'],
  ])('[BK26] the name or serial number %s takes nothing that the program wrote', (word) => {
    const unit = unitOfWrittenWords();
    const sums = sumsOf(unit);
    const plain = sharedRecord({ ...unit, owner: 'Quillfeather', serialNumber: 'SN-77123' }, 'given-away', sums);
    for (const own of [{ owner: word }, { serialNumber: word }]) {
      const said = { ...unit, ...own, after: { ...unit.after, hum: `gone, says ${word}` } };
      expect(sharedRecord(said, 'given-away', sums)).toEqual(plain);
    }
  });
});
