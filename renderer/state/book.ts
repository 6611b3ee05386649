import { signal } from '@preact/signals';
import type { BenchError, SavedFile } from '../../core/contract/bench';
import type { AddedArchive, BookVerbs, UnitEdit, UnitId, UnitRevision } from '../../core/contract/book-verbs';
import type { UnitRecord } from '../../core/contract/unit-record';
import { CallFailed, isArchive, isRefused, type BenchLink, type CallOptions } from '../link/bench-link';
import { BookPictures } from './book-pictures';
import { emptyBook, sameEntries, wordsAtField, type AskedEdits, type BookState } from './book-state';
import type { KeptEdits } from './kept-edits';
import { LatestKept } from './latest-kept';
import { askedNow, fieldNow, namesChanged, namesGiven, selectionNow, type FollowsNames, type Renamed } from './renamed';
import type { Selection } from './selection';

/** Records behind the rows in view. */
const mostRecords = 60;

/** A wrong value is for the user to correct; everything else may go well when it is tried again. */
const isRefusal = ({ kind }: BenchError): boolean => kind === 'usage';

/** The units as the screens show them, and everything that can be done with them. */
export class Book {
  readonly state = signal<BookState>(emptyBook);
  readonly pictures: BookPictures;
  /** Raised whenever a record for the list arrives. */
  readonly arrived = signal(0);
  readonly #records = new LatestKept<string, UnitRecord | 'asked'>(mostRecords);
  #searches = 0;
  #opens = 0;
  /** The unit on the screen, also while it is on its way. */
  #opened: UnitId | null = null;
  #isSaving = false;
  #underWay: Promise<void> = Promise.resolve();

  constructor(
    readonly link: BenchLink,
    readonly kept: KeptEdits,
    readonly say: (said: string) => void,
    readonly followers: readonly FollowsNames[] = [],
  ) {
    this.pictures = new BookPictures(link);
    const { kept: unsaved, isDamaged } = kept.left();
    if (isDamaged) this.#change({ lost: keptDamaged });
    if (unsaved.length > 0) this.#change({ unsaved, saving: { kind: 'not-saved', error: leftOver } });
  }

  /** Reads the list. What a slower, older question answers is not shown. */
  async list(search = this.state.value.search): Promise<void> {
    const mine = ++this.#searches;
    this.#change({ search });
    try {
      const { entries, readOnly } = await this.link.call('bookList', { search });
      if (mine !== this.#searches) return;
      const { state } = this;
      const isSame = sameEntries(state.value.entries, entries);
      if (isSame && state.value.readOnly === readOnly && state.value.listError === null) return;
      this.#change({ entries: isSame ? state.value.entries : entries, readOnly, listError: null });
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      if (mine === this.#searches) this.#change({ listError: error });
    }
  }

  /** The record behind a row, asked for when it comes into view; undefined while it is on its way. */
  recordOf(unit: UnitId, revision: number): UnitRecord | undefined {
    const key = `${unit} ${revision}`;
    const kept = this.#records.get(key);
    if (kept === undefined) {
      this.#records.set(key, 'asked');
      void this.#loadRecord(key, unit);
    }
    return kept === 'asked' ? undefined : kept;
  }

  async #loadRecord(key: string, unit: UnitId): Promise<void> {
    try {
      this.#records.set(key, await this.link.call('unitRead', { unit }));
      this.arrived.value++;
    } catch (error) {
      // The row itself says when a unit cannot be read.
      if (!(error instanceof CallFailed)) throw error;
    }
  }

  /** Opens a unit, or reads it again. What an older question answers is not shown, nor what was read before a newer answer. */
  async open(unit: UnitId): Promise<void> {
    const mine = ++this.#opens;
    this.#opened = unit;
    if (this.state.value.record?.id !== unit) {
      this.#change({ record: null, recordError: null, refusedFields: new Map(), refused: null });
    }
    const before = this.state.value.record;
    try {
      const record = await this.link.call('unitRead', { unit });
      if (mine !== this.#opens) return;
      // A change that was saved meanwhile has shown what it made of the record.
      const shown = this.state.value.record;
      if (shown === before || shown === null || shown.revision < record.revision) this.#show(record);
    } catch (recordError) {
      if (!(recordError instanceof CallFailed)) throw recordError;
      if (mine === this.#opens) this.#change({ recordError });
    }
  }

  /** @returns the new unit; null when it was refused */
  async create(name: string, like: UnitId | null): Promise<UnitRecord | null> {
    return this.#come(this.link.call('unitCreate', { name, like }), () => `${name} is in the book`);
  }

  /** Shows something of the open unit beside it. */
  select(selected: Selection): void {
    this.#change({ selected });
  }

  /**
   * Changes the open unit; saved by itself.
   *
   * @param what  as `lamp left moved`
   */
  edit(what: string, edits: readonly UnitEdit[]): void {
    const { record, unsaved, readOnly } = this.state.value;
    if (!record || edits.length === 0 || readOnly !== null) return;
    this.#keep([...unsaved, { unit: record.id, unitName: record.name, what, edits }]);
    void this.save();
  }

  /** A field of the open unit, as a person typed it. */
  set(field: string, text: string, what: string): void {
    this.edit(what, [{ kind: 'set', field, text }]);
  }

  /** Saves what is not saved, in its order; stops at the first that cannot be. */
  save(): Promise<void> {
    if (!this.#isSaving) this.#underWay = this.#saveAll();
    return this.#underWay;
  }

  async #saveAll(): Promise<void> {
    this.#isSaving = true;
    try {
      for (let next = this.state.value.unsaved.at(0); next; next = this.state.value.unsaved.at(0)) {
        this.#change({ saving: { kind: 'saving' } });
        await this.#saveOne(next);
      }
      this.#change({ saving: { kind: 'saved' } });
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      this.#change({ saving: { kind: 'not-saved', error } });
    } finally {
      this.#isSaving = false;
    }
  }

  async #saveOne(asked: AskedEdits): Promise<void> {
    const { unit, what, edits } = asked;
    const fields = edits.flatMap((edit) => (edit.kind === 'set' ? [edit.field] : []));
    const others = [...this.state.value.refusedFields].filter(([field]) => !fields.includes(field));
    try {
      const record = await this.link.call('unitEdit', { unit, edits });
      this.#change({ refusedFields: new Map(others), refused: null });
      this.#takeOut(asked);
      this.#rename(unit, namesGiven(edits));
      this.#show(record);
      this.say(`Saved: ${what}`);
    } catch (error) {
      if (!(error instanceof CallFailed) || !isRefusal(error)) throw error;
      // It can never be saved: said where it was typed, and not tried again.
      const marked = fields.map((field): [string, BenchError] => [field, error]);
      this.#change({ refusedFields: new Map([...others, ...marked]), refused: fields.length > 0 ? null : error });
      this.#takeOut(asked);
      this.say(`${what}: ${wordsAtField(error)}`);
    }
  }

  /** Gives up what could not be saved. */
  dropUnsaved(): void {
    this.#keep([]);
    this.#change({ saving: { kind: 'saved' } });
    const { record } = this.state.value;
    if (record) void this.open(record.id);
  }

  /** Puts away what the screens say of a refused edit, else of lost ones. */
  dismissRefused(): void {
    this.#change(this.state.value.refused ? { refused: null } : { lost: null });
  }

  /** Takes back what was done last in the open unit, or does it again; what is being saved is saved first. */
  async restore(which: 'undo' | 'redo'): Promise<void> {
    const unit = this.state.value.record?.id;
    if (unit === undefined || this.state.value.readOnly !== null) return;
    await this.#underWay;
    const { record, unsaved } = this.state.value;
    const left = unsaved.filter((asked) => asked.unit === unit).at(-1);
    if (left) return this.#restoreUnsaved(which, left);
    if (record?.id === unit && record[which] === null) return;
    const words = which === 'undo' ? 'The last change is taken back' : 'The change is done again';
    const restored = await this.#attempt(this.link.call('unitRestore', { unit, which }));
    if (!restored) return;
    if (record?.id === unit) this.#rename(unit, namesChanged(record, restored));
    this.#show(restored);
    this.say(words);
  }

  /** What could not be saved was done after everything in the book: it is what undo takes back, and nothing follows it. */
  #restoreUnsaved(which: 'undo' | 'redo', last: AskedEdits): void {
    if (which === 'redo') return this.say('A change that is not saved yet is the last one: nothing can be done again');
    this.#takeOut(last);
    if (this.state.value.unsaved.length === 0) this.#change({ saving: { kind: 'saved' } });
    this.say(`Taken back, and not saved: ${last.what}`);
  }

  /** Has the host put a damaged unit in order, and shows it. */
  async repair(unit: UnitId, options: CallOptions): Promise<UnitRecord> {
    const record = await this.link.call('unitRepair', { unit }, options);
    this.#show(record);
    void this.list();
    this.say(`${record.name} is repaired: this is revision ${record.revision}`);
    return record;
  }

  /** What is left of a unit that cannot be read, as a file. */
  leftovers(unit: UnitId, options: CallOptions): Promise<BookVerbs['unitLeftovers']['answers']> {
    return this.link.call('unitLeftovers', { unit }, options);
  }

  /** @returns null when it could not be read */
  timeline(unit: UnitId, most: number): Promise<readonly UnitRevision[] | null> {
    return this.#attempt(this.link.call('unitTimeline', { unit, most }));
  }

  async file(filed: BookVerbs['fileReadings']['asks']['filed'], options: CallOptions): Promise<UnitRecord> {
    const record = await this.link.call('fileReadings', { filed }, options);
    this.#opened = record.id;
    this.#show(record);
    return record;
  }

  /** @returns null when it was refused */
  lay(unit: UnitId, window: string): Promise<BookVerbs['layUnit']['answers'] | null> {
    this.say(`The photos of ${window} are being laid on the bench`);
    return this.#attempt(this.link.call('layUnit', { unit, window }));
  }

  sheet(asks: BookVerbs['unitSheet']['asks'], options: CallOptions): Promise<SavedFile> {
    return this.link.call('unitSheet', asks, options);
  }

  exportUnit(unit: UnitId, share: boolean, options: CallOptions): Promise<BookVerbs['unitExport']['answers']> {
    return this.link.call('unitExport', { unit, share }, options);
  }

  /** @returns the unit that came in; null when it was refused */
  async importFile(file: File): Promise<UnitRecord | null> {
    this.say(`${file.name} is being read`);
    const [added] = await this.link.addPhotos([file]);
    if (!isArchive(added)) {
      const error: BenchError = isRefused(added) ? added : notAUnit(file.name);
      this.#change({ refused: error });
      this.say(`${error.message} ${error.remedy}`);
      return null;
    }
    return this.importArchive(added);
  }

  /** @returns the unit that came in; null when it was refused */
  importArchive({ archive }: AddedArchive): Promise<UnitRecord | null> {
    const work = this.link.call('unitImport', { upload: archive });
    return this.#come(work, ({ name }) => `${name} has come into the book`);
  }

  /** A unit that was not in the book before is opened. */
  async #come(work: Promise<UnitRecord>, words: (record: UnitRecord) => string): Promise<UnitRecord | null> {
    const record = await this.#attempt(work);
    if (!record) return null;
    this.#opened = record.id;
    this.#show(record);
    this.say(words(record));
    return record;
  }

  async #attempt<Answer>(work: Promise<Answer>): Promise<Answer | null> {
    try {
      return await work;
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      this.#change({ refused: error });
      this.say(`${error.message} ${error.remedy}`);
      return null;
    }
  }

  /** What the host says of a unit: on the screen when it is the one that is open. */
  #show(record: UnitRecord): void {
    this.#records.set(`${record.id} ${record.revision}`, record);
    for (const follower of this.followers) follower.callUnit(record.id, record.name);
    if (record.id !== this.#opened) return;
    const { record: before, selected } = this.state.value;
    const isSame = before?.id === record.id;
    this.#change({ record, recordError: null, selected: isSame ? selected : emptyBook.selected });
  }

  /** What is selected, filed, refused or not saved yet under the old name goes by the new one. */
  #rename(unit: UnitId, names: readonly Renamed[]): void {
    for (const renamed of names) {
      const { unsaved, selected, refusedFields, record } = this.state.value;
      this.#keep(unsaved.map((asked) => (asked.unit === unit ? askedNow(asked, renamed) : asked)));
      for (const follower of this.followers) follower.rename(unit, renamed);
      if (record?.id !== unit) continue;
      const refusedNow = [...refusedFields].map(([field, error]) => [fieldNow(field, renamed), error] as const);
      this.#change({ selected: selectionNow(selected, renamed), refusedFields: new Map(refusedNow) });
    }
  }

  #takeOut(asked: AskedEdits): void {
    this.#keep(this.state.value.unsaved.filter((other) => other !== asked));
  }

  #keep(unsaved: readonly AskedEdits[]): void {
    this.#change({ unsaved });
    this.kept.keep(unsaved);
  }

  #change(change: Partial<BookState>): void {
    this.state.value = { ...this.state.value, ...change };
  }
}

const leftOver: BenchError = {
  kind: 'cancelled',
  code: 'NOT_SAVED',
  message: 'The program ended before a change was saved.',
  remedy: 'Save it now, or give it up.',
};

const keptDamaged: BenchError = {
  kind: 'usage',
  code: 'KEPT_EDITS_DAMAGED',
  message: 'Changes that were not saved the last time cannot be read any more.',
  remedy: 'The time line of a unit says what was saved. Do again what is missing there.',
};

const notAUnit = (name: string): BenchError => ({
  kind: 'usage',
  code: 'ARCHIVE_UNKNOWN',
  message: `${name} is no unit file.`,
  remedy: 'A unit file is written by “Save as one file” of a unit.',
});
