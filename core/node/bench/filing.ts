import { isDeepStrictEqual } from 'node:util';
import { assertRoleFits, fileHelper, filePhoto, withPhotography, type PhotoToFile } from '../../book/file-photo';
import { readingToKeep } from '../../book/measured-readings';
import { assertSized, windowAsked, windowToKeep } from '../../book/window-asked';
import type { MeasureAsked, PhotoAsked, PhotoId } from '../../contract/bench';
import type { BookVerbs, FiledAs } from '../../contract/book-verbs';
import type { MeasuredWindow } from '../../contract/measure';
import type { PhotoRole, UnitPhoto, UnitReading, UnitRecord, UnitWindow } from '../../contract/unit-record';
import type { Book } from '../book/book';
import type { CallRun } from './calls';
import type { KeptReading, MeasuredPhotos } from './measured-photos';
import type { PhotoRegistry } from './photo-registry';

export interface FilingBench {
  readonly book: Book;
  readonly photos: PhotoRegistry;
  readonly measured: MeasuredPhotos;
  /** Measures a photo of the bench as its page would have it measured. */
  readonly measure: (asked: MeasureAsked, run: CallRun) => Promise<KeptReading>;
  /** Measures it as the reference of its unit: what is told beside the reference is then told beside itself. */
  readonly measureReference: (asked: MeasureAsked, run: CallRun) => Promise<MeasuredWindow>;
  /** Of this program. */
  readonly version: string;
}

type Filed = BookVerbs['fileReadings']['asks']['filed'][number];
type Original = PhotoToFile['original'];
type Edit = (record: UnitRecord) => UnitRecord;

/** The photo shows its window by itself; others only help to read it. */
const isRead = (role: PhotoRole): boolean => role === 'trial' || role === 'reference';

/** One filing of photos of the bench, from its originals to its edits. */
class Filing {
  private readonly originals = new Map<PhotoId, Original>();
  private readonly windows: Map<string, UnitWindow>;
  /** Of the record, as far as it says. */
  private scene: NonNullable<UnitRecord['photography']>;

  constructor(
    private readonly bench: FilingBench,
    private readonly unit: UnitRecord,
    private readonly inAll: number,
    private readonly run: CallRun,
  ) {
    this.windows = new Map(unit.windows.map((window) => [window.name, window]));
    this.scene = unit.photography ?? {};
  }

  /** The photo's bytes in the unit; once each, however often it is named. */
  private async keep(photo: PhotoId): Promise<Original> {
    const known = this.originals.get(photo);
    if (known) return known;
    const { name, path, stated } = this.bench.photos.find(photo);
    this.tell(name);
    const { sha256, ending, bytes } = await this.bench.book.keepOriginal(this.unit.id, path, this.run.signal);
    const original = { sha256, ending, bytes, name, ...stated };
    this.originals.set(photo, original);
    return original;
  }

  private tell(file: string): void {
    const { onProgress } = this.run;
    onProgress({ file, step: 'done', photosDone: Math.min(this.originals.size, this.inAll), photosInAll: this.inAll });
  }

  /** The photo's reading as the record has its window, room and distance: the one that is there, or measured again. */
  private async read({ measure, window: name, role }: Filed, { sha256 }: Original): Promise<KeptReading> {
    const { measured, book } = this.bench;
    const window = this.windows.get(name);
    // What the first photo of a new record was measured in is what the record says of the others.
    const { room = measure.room, viewingDistanceMm = measure.viewingDistanceMm } = this.scene;
    this.scene = { room, viewingDistanceMm };
    const asked = { ...(window ? asWindow(measure, window) : measure), room, viewingDistanceMm };
    if (role === 'reference')
      return { asked, measured: await this.bench.measureReference(asked, this.run), measuredAt: book.now() };
    const kept = measured.lastOf(asked.photo);
    // Of a file that was written over meanwhile the reading is not that of the original.
    if (
      kept?.measured.reading.photos[0].sha256 === sha256 &&
      isDeepStrictEqual(this.asFound(kept.asked), this.asFound(asked))
    )
      return kept;
    return this.bench.measure(asked, this.run);
  }

  /** With the shapes that the search has found where none was stated: the record states them, and means the same. */
  private asFound(asked: MeasureAsked): MeasureAsked {
    const found = <Asked extends PhotoAsked>(one: Asked): Asked => {
      const kind = this.bench.measured.lastOf(one.photo)?.measured.reading.outline.kind;
      return one.window.shape !== null || kind === undefined || kind === 'polygon'
        ? one
        : { ...one, window: { ...one.window, shape: { kind } } };
    };
    return { ...found(asked), reference: asked.reference && found(asked.reference) };
  }

  private readingOf({ measured, measuredAt }: KeptReading, { trial, window }: FiledAs): UnitReading {
    const name = trial ?? measured.reading.name;
    const entry = { ...measured, reading: { ...measured.reading, name, window } };
    return readingToKeep(entry, measuredAt, `evendial ${this.bench.version}`);
  }

  /** The photo itself, with its window, its corners and its reading. */
  private async photoEdits(filed: Filed): Promise<Edit[]> {
    const { measure, role, trial, window: name } = filed;
    const original = await this.keep(measure.photo);
    const plain = { original, role, trial, light: measure.light, shows: null, reading: null };
    if (!isRead(role)) return [(record) => filePhoto(record, { ...plain, light: 'unknown' })];
    const kept = await this.read(filed, original);
    const { cornersPx, kind } = kept.measured.reading.outline;
    const window = this.windows.get(name) ?? windowToKeep(name, measure.window, kind);
    this.windows.set(name, window);
    const shows = { window, cornersPx };
    const reading = this.readingOf(kept, filed);
    return [(record) => withPhotography(record, measure), (record) => filePhoto(record, { ...plain, shows, reading })];
  }

  private async helperEdits({ measure, trial }: Filed): Promise<Edit[]> {
    const { lampOff, flatField, printPhoto } = measure.helpers;
    const helpers = [
      ['lamp-off', lampOff],
      ['flat-field', flatField],
      ['print-photo', printPhoto],
    ] as const;
    const edits: Edit[] = [];
    for (const [role, photo] of helpers) {
      if (photo === null) continue;
      const original = await this.keep(photo);
      const filed = { original, role, trial, light: 'unknown', shows: null, reading: null } as const;
      edits.push((record) => fileHelper(record, filed));
    }
    return edits;
  }

  /** The reference that a trial was measured with, unless it is filed by itself or stands in the unit already. */
  private async referenceEdits({ measure, window: name }: Filed, others: readonly Filed[]): Promise<Edit[]> {
    const { reference } = measure;
    const window = this.windows.get(name);
    if (reference === null || reference.photo === measure.photo || !window) return [];
    if (others.some((one) => one.role === 'reference' && one.measure.photo === reference.photo)) return [];
    const original = await this.keep(reference.photo);
    if (this.unit.photos.some((photo) => isReference(photo, original, name))) return [];
    const cornersPx = reference.window.cornersPx ?? this.cornersOf(reference);
    const filed: PhotoToFile = {
      original,
      role: 'reference',
      trial: null,
      light: reference.light,
      shows: cornersPx && { window, cornersPx },
      reading: null,
    };
    return [(record) => filePhoto(record, filed)];
  }

  private cornersOf({ photo }: PhotoAsked): readonly (readonly [number, number])[] | null {
    return this.bench.measured.lastOf(photo)?.measured.reading.outline.cornersPx ?? null;
  }

  async edits(filed: readonly Filed[]): Promise<Edit[]> {
    // Before anything is copied or measured.
    for (const { role, window, measure } of filed)
      if (isRead(role) && !this.windows.has(window)) assertSized(window, measure.window);
    const edits: Edit[] = [];
    for (const one of filed) {
      this.run.signal.throwIfAborted();
      edits.push(...(await this.photoEdits(one)));
      if (!isRead(one.role)) continue;
      edits.push(...(await this.helperEdits(one)), ...(await this.referenceEdits(one, filed)));
    }
    return edits;
  }
}

const isReference = ({ sha256, role, corners }: UnitPhoto, original: Original, window: string): boolean =>
  sha256 === original.sha256 && role === 'reference' && (corners === undefined || corners[window] !== undefined);

/** As it is asked about the window of the record; the photo and its reference keep their corners. */
function asWindow(measure: MeasureAsked, window: UnitWindow): MeasureAsked {
  const reference = measure.reference && {
    ...measure.reference,
    window: windowAsked(window, measure.reference.window.cornersPx),
  };
  return { ...measure, window: windowAsked(window, measure.window.cornersPx), reference };
}

/**
 * Files photos of the bench in a unit: originals byte for byte, windows and trials that are new, corners, readings, and
 * the photos that they were read with; one revision. A cancelled or refused filing changes no record; originals that were
 * copied by then stay in the unit's folder, where filing again finds them.
 *
 * @throws AppError FILED_WITHOUT_TRIAL, FILED_WITH_TRIAL, WINDOW_SIZE_MISSING; of the photo, of the book
 * @rule BE17
 */
export async function fileReadings(bench: FilingBench, filed: readonly Filed[], run: CallRun): Promise<UnitRecord> {
  filed.forEach(assertRoleFits);
  const { book } = bench;
  const unit = await book.read(filed[0].unit);
  const named = filed.flatMap(({ measure }) => [measure.photo, ...Object.values(measure.helpers)]);
  const inAll = new Set(named.filter((photo) => photo !== null)).size;
  const edits = await new Filing(bench, unit, inAll, run).edits(filed);
  run.signal.throwIfAborted();
  return book.edit(unit.id, (record) => edits.reduce((one, edit) => edit(one), record));
}
