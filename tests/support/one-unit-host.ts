import { applyEdit } from '../../core/book/apply-edit';
import { AppError } from '../../core/base/errors';
import type { BenchError, BenchVerb } from '../../core/contract/bench';
import type { BookEntry, UnitEdit, UnitId } from '../../core/contract/book-verbs';
import type { UnitRecord } from '../../core/contract/unit-record';
import { CallFailed, type BenchLink } from '../../renderer/link/bench-link';
import { larkfieldUnit } from './unit-records';

export const diskFull: BenchError = {
  kind: 'book',
  code: 'DISK_FULL',
  message: 'The disk of the book is full.',
  remedy: 'Make room.',
};

export class MemoryStorage {
  readonly texts = new Map<string, string>();
  getItem = (key: string): string | null => this.texts.get(key) ?? null;
  setItem = (key: string, text: string): void => void this.texts.set(key, text);
  removeItem = (key: string): void => void this.texts.delete(key);
}

/** A host with one unit that is edited (any other is only read), which can be told to fail or to answer late. */
export class OneUnitHost {
  record: UnitRecord = larkfieldUnit();
  failure: BenchError | null = null;
  readOnly: string | null = null;
  readonly calls: string[] = [];
  /** Verbs whose answers wait until `answer` is called. */
  readonly late = new Set<BenchVerb>();
  readonly #waiting: { readonly verb: BenchVerb; readonly go: () => void }[] = [];
  readonly #before: UnitRecord[] = [];
  /** Lists of units that wait to be answered, by their search. */
  readonly lists = new Map<string, (entries: readonly BookEntry[]) => void>();

  #edited(edits: readonly UnitEdit[]): UnitRecord {
    try {
      const content = edits.reduce(applyEdit, this.record);
      this.#before.push(this.record);
      return { ...content, revision: this.record.revision + 1, undo: this.record.revision };
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      const { code, message, remedy } = error;
      throw new CallFailed({ kind: 'usage', code, message, remedy });
    }
  }

  #answer(verb: BenchVerb, asks: unknown): unknown {
    if (this.failure) throw new CallFailed(this.failure);
    if (verb === 'unitEdit') this.record = this.#edited((asks as { edits: readonly UnitEdit[] }).edits);
    if (verb === 'unitRestore') this.record = { ...this.#before.pop()!, revision: this.record.revision + 1 };
    const { unit } = asks as { unit: UnitId };
    return unit === this.record.id ? this.record : { ...larkfieldUnit(), id: unit };
  }

  /** Lets the oldest answer to a late verb go; the work was done when it was asked. */
  async answer(verb: BenchVerb): Promise<void> {
    const at = this.#waiting.findIndex((one) => one.verb === verb);
    if (at < 0) throw new Error(`nothing waits for an answer to ${verb}`);
    this.#waiting.splice(at, 1)[0].go();
    await rest();
  }

  readonly link: BenchLink = {
    call: async (verb, asks) => {
      this.calls.push(verb);
      if (verb === 'bookList') {
        const { search } = asks as { search: string };
        const entries = await new Promise<readonly BookEntry[]>((resolve) => this.lists.set(search, resolve));
        return { entries, readOnly: this.readOnly } as never;
      }
      await Promise.resolve();
      const answer = new Promise((resolve) => resolve(this.#answer(verb, asks)));
      // A failure may come late, too.
      answer.catch(() => undefined);
      if (this.late.has(verb)) await new Promise<void>((go) => this.#waiting.push({ verb, go }));
      return (await answer) as never;
    },
    addPhotos: () => Promise.resolve([]),
    onEvent: () => () => undefined,
  };
}

/** Until everything that was asked is answered, but for what answers late. */
export const rest = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
