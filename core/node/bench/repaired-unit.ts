import { AppError } from '../../base/errors';
import type { UnitId } from '../../contract/book-verbs';
import type { UnitRecord } from '../../contract/unit-record';
import type { Book } from '../book/book';
import { repairInBook } from '../book/check-book';
import type { Finding } from '../book/findings';
import { originalOfName, photosOf } from '../book/originals';
import { namesIn } from '../book/revision-files';

/** `All 4 of its photos are whole.` */
function photosText(inAll: number, whole: number): string {
  if (inAll === 0) return 'No photo lies with it.';
  if (inAll === 1) return whole === 1 ? 'Its photo is whole.' : 'Its one photo is damaged too.';
  return whole === inAll ? `All ${inAll} of its photos are whole.` : `${whole} of its ${inAll} photos are whole.`;
}

/** Nothing goes on from a unit without a whole revision: what is left can be taken out. */
async function unreadable(book: Book, unit: UnitId, findings: readonly Finding[]): Promise<AppError> {
  const originals = (await namesIn(book.port, photosOf(book.unitFolder(unit)))).filter((name) => originalOfName(name));
  const damaged = findings.filter(({ code }) => code === 'ORIGINAL_DAMAGED').length;
  const message = `No revision of ${unit} is whole: what was written about it cannot be brought back from here.`;
  const remedy = [
    photosText(originals.length, originals.length - damaged),
    '“Save what is left” puts the photos and every piece of the record into one file, and changes nothing.',
    `Then take the folder ${unit} from a copy of the book and put it in the place of this one, or begin a new unit with the photos.`,
  ];
  return new AppError('book', 'UNIT_UNREADABLE', message, remedy.join(' '));
}

/**
 * Puts a damaged unit in order, and reads it.
 *
 * @throws AppError UNIT_UNREADABLE, which says what is left; UNIT_LOCKED, BOOK_NOT_USABLE, RECORD_TOO_NEW
 * @rule BE16, BK21
 */
export async function repairedUnit(book: Book, unit: UnitId, signal: AbortSignal): Promise<UnitRecord> {
  const findings = await repairInBook(book, unit, signal);
  try {
    return await book.read(unit);
  } catch (error) {
    if (!(error instanceof AppError) || error.code !== 'RECORD_DAMAGED') throw error;
    throw await unreadable(book, unit, findings);
  }
}
