import path from 'node:path';
import { originalPath } from '../../book/unit-series';
import type { MeasureResult } from '../../contract/measure';
import type { UnitRecord } from '../../contract/unit-record';
import type { Book } from '../book/book';
import { sheetRequest } from '../sheet/unit-sheet';
import type { CallRun } from './calls';

/** What the figures and maps of a sheet come from. Facts and notes of the record do not belong to it. */
interface Origin {
  readonly request: NonNullable<ReturnType<typeof sheetRequest>>;
  /** Says whether anything of it has changed. */
  readonly key: string;
}

async function originOf(book: Book, record: UnitRecord): Promise<Origin | null> {
  const placeOf = (file: string): string => path.join(book.unitFolder(record.id), file);
  const request = sheetRequest(record, placeOf);
  if (!request) return null;
  // A photo that was damaged, lost or brought back since is read anew.
  const facts = await Promise.all(record.photos.map((photo) => book.port.facts(placeOf(originalPath(photo)))));
  const stamps = facts.map((one) => one && [one.bytes, one.stamp]);
  return { request, key: JSON.stringify([request, record.chosen?.trial, stamps]) };
}

/**
 * The measurement of the sheet that was asked for last: its preview, its PDF and its page are made from one, and typing a note
 * costs no measuring. Only the last is kept, as its maps are large.
 *
 * @rule BE23
 */
export class LastSheet {
  private last: { readonly key: string; readonly result: MeasureResult } | null = null;

  /** All photos of a unit measured; nothing when it has none to measure. */
  async measured(book: Book, record: UnitRecord, { engine }: CallRun): Promise<MeasureResult> {
    const origin = await originOf(book, record);
    if (!origin) return { windows: [] };
    if (this.last?.key === origin.key) return this.last.result;
    const result = await engine('unit', { record, request: origin.request });
    this.last = { key: origin.key, result };
    return result;
  }
}
