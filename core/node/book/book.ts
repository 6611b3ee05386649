import path from 'node:path';
import { askedWrongly, bookError, listOfNames } from '../../book/book-errors';
import { newUnit, newUnitLike, nextRevision, restoredRevision, revisionToRestore } from '../../book/revisions';
import { isFound } from '../../book/search-text';
import { timelineOf, type TimelineEntry } from '../../book/timeline';
import type { UnitRecord } from '../../contract/unit-record';
import { listUnits, unitsOf, type ListedUnit } from './book-index';
import { withBookErrors } from './book-failures';
import { diskPort } from './disk-port';
import type { FilePort } from './file-port';
import { makeBook, placeUnit } from './new-folder';
import { keepOriginal, type KeptOriginal } from './originals';
import { readNewest, readRecordFile, revisionFile, revisionNumbers, saveRevision } from './revision-files';
import { newUnitId } from './unit-ids';
import { whileLocked } from './unit-lock';

export interface BookOptions {
  readonly port?: FilePort;
  /** ISO 8601, UTC. */
  readonly now?: () => string;
  /** How long a change waits for another process, ms. */
  readonly patienceMs?: number;
}

/** Other revisions may come between reading and saving only when a lock was taken for left behind; then the edit is done again. */
const attempts = 20;

/** The units of a folder. Reading never waits and never changes a unit. */
export class Book {
  readonly port: FilePort;
  readonly now: () => string;
  readonly patienceMs: number;

  constructor(
    readonly folder: string,
    { port = diskPort, now = () => new Date().toISOString(), patienceMs = 5000 }: BookOptions = {},
  ) {
    this.port = port;
    this.now = now;
    this.patienceMs = patienceMs;
  }

  /** Where a unit lies. */
  unitFolder(id: string): string {
    return path.join(unitsOf(this.folder), id);
  }

  private safely<T>(act: () => Promise<T>): Promise<T> {
    return withBookErrors(this.folder, act);
  }

  /** All units, the last saved first; of a search those that hold all its words. @rule BK18 */
  list(search?: string): Promise<ListedUnit[]> {
    return this.safely(async () => {
      const units = await listUnits(this.port, this.folder);
      return search === undefined ? units : units.filter((unit) => 'error' in unit || isFound(unit.text, search));
    });
  }

  /**
   * The id of what a person called a unit: its id or the beginning of it, or its name.
   *
   * @throws AppError UNIT_UNKNOWN, UNIT_AMBIGUOUS
   */
  async idOf(called: string): Promise<string> {
    const units = await this.list();
    const nameOf = (unit: ListedUnit): string => ('error' in unit ? '' : unit.name);
    const exact = units.filter((unit) => unit.id === called);
    const named = units.filter((unit) => nameOf(unit).toLowerCase() === called.toLowerCase());
    const begun = units.filter((unit) => called !== '' && unit.id.startsWith(called));
    const found = [exact, named, begun].find((some) => some.length > 0) ?? [];
    if (found.length === 1) return found[0].id;
    const which = JSON.stringify(called);
    if (found.length === 0) {
      const remedy = `Units: ${listOfNames(units.slice(0, 8).map(({ id }) => id))}. 'evendial unit list' shows all.`;
      throw askedWrongly('UNIT_UNKNOWN', `the book in ${this.folder} has no unit ${which}`, remedy);
    }
    const remedy = `Name one by its id: ${listOfNames(found.map(({ id }) => id))}.`;
    throw askedWrongly('UNIT_AMBIGUOUS', `${which} may be ${found.length} units`, remedy);
  }

  /** A unit as it was last saved. @throws AppError RECORD_DAMAGED, RECORD_TOO_NEW @rule BK15 */
  read(id: string): Promise<UnitRecord> {
    return this.safely(() => readNewest(this.port, this.unitFolder(id)));
  }

  readRevision(id: string, revision: number): Promise<UnitRecord> {
    const file = revisionFile(this.unitFolder(id), revision);
    return this.safely(() => readRecordFile(this.port, file, id, revision));
  }

  /** What happened to a unit, oldest first. @param most  so many of the newest revisions at most */
  async timeline(id: string, most = Infinity): Promise<TimelineEntry[]> {
    const revisions: UnitRecord[] = [];
    const numbers = await this.safely(() => revisionNumbers(this.port, this.unitFolder(id)));
    // One more: the first of them is only what the next one is told apart from.
    const read = numbers.slice(Math.max(0, numbers.length - most - 1));
    for (const number of read) revisions.push(await this.readRevision(id, number));
    const entries = timelineOf(revisions);
    return entries.length > most ? entries.slice(1) : entries;
  }

  /** A new unit, whole in the book or not at all. @param like  the unit that it begins as */
  create(name: string, like?: UnitRecord): Promise<UnitRecord> {
    return this.safely(async () => {
      const id = newUnitId(name);
      const record = like ? newUnitLike(like, id, name, this.now()) : newUnit(id, name, this.now());
      await makeBook(this.port, this.folder);
      await placeUnit(this.port, this.folder, record);
      return record;
    });
  }

  /**
   * Changes a unit and saves it as the next revision. `edit` is pure and may be called again when another process has
   * saved meanwhile, so that neither change is lost. An edit that changes nothing saves nothing.
   *
   * @throws AppError UNIT_LOCKED, UNIT_CHANGED, or as `edit`
   * @rule BK14, BK16
   */
  edit(id: string, edit: (record: UnitRecord) => UnitRecord): Promise<UnitRecord> {
    return this.change(id, async (current) => {
      const edited = edit(current);
      if (edited === current) return null;
      return (revision) => nextRevision(current, edited, revision, this.now());
    });
  }

  /** Brings the content of an earlier revision back, as a new one. @throws AppError NOTHING_TO_UNDO, NOTHING_TO_REDO */
  restore(id: string, which: 'undo' | 'redo'): Promise<UnitRecord> {
    return this.change(id, async (current) => {
      const target = await this.readRevision(id, revisionToRestore(current, which));
      return (revision) => restoredRevision(current, target, which, revision, this.now());
    });
  }

  private change(
    id: string,
    next: (current: UnitRecord) => Promise<((revision: number) => UnitRecord) | null>,
  ): Promise<UnitRecord> {
    const folder = this.unitFolder(id);
    const { port, now, patienceMs } = this;
    const save = async (): Promise<UnitRecord> => {
      for (let i = 0; i < attempts; i++) {
        const current = await readNewest(port, folder);
        const make = await next(current);
        if (make === null) return current;
        const saved = await saveRevision(port, folder, current.revision, make);
        if (saved !== false) return saved;
      }
      const message = `the unit ${id} is being changed by other processes all the time`;
      throw bookError('UNIT_CHANGED', message, 'Try again when they are done.');
    };
    return this.safely(() => whileLocked(port, folder, { patienceMs, now }, save));
  }

  /** Copies a photo into a unit, byte for byte. @throws AppError PHOTO_NOT_READ, ORIGINAL_DAMAGED @rule BK17 */
  keepOriginal(id: string, source: string, signal: AbortSignal): Promise<KeptOriginal> {
    return this.safely(() => keepOriginal(this.port, this.unitFolder(id), source, signal));
  }
}
