import path from 'node:path';
import { AppError } from '../../base/errors';
import type { Book } from '../book/book';

/** Remedies of the book that name a command or an option are these on the screen, by the error's code. */
const onScreen: Readonly<Record<string, string>> = {
  BOOK_NOT_USABLE:
    'See that its disk is there, has room and may be written to, and that its folder is yours to change; then try again.',
  RECORD_DAMAGED:
    'Nothing was changed. “Repair this unit” goes on from the newest revision that is whole, and keeps the damaged one aside. “Save what is left” takes out its photos, and the record as it is.',
  ORIGINAL_DAMAGED: 'Put the same file from a copy of the book in its place.',
  UNIT_EXISTS: 'Nothing was written. Go on with the unit that is in the book, or take the file into another book.',
  FIELD_UNKNOWN: 'It may have been removed or renamed meanwhile: look at the unit as it is now.',
  MIRROR_NEEDS_LIKE: 'Choose the trial whose lamps are to be mirrored.',
  NOTHING_TO_UNDO: 'The unit is as it began.',
  NOTHING_TO_REDO: 'Only what was just undone can be brought back; the time line shows all that was.',
};

/** `'evendial unit list'`, `--book DIR`. */
const commandWords = /'evendial |(?:^|[\s('])--[a-z]/;

/** Messages of the book name places for whoever has a command line; the page is told those inside the book only. */
export function withoutPlaces(text: string, { folder }: Book): string {
  return text
    .replaceAll(` in ${folder}`, '')
    .replaceAll(`${folder}${path.sep}`, '')
    .replaceAll(folder, 'the folder of the book');
}

function errorToPage({ kind, code, message, remedy }: AppError, book: Book): AppError {
  const shown = commandWords.test(remedy) ? (onScreen[code] ?? remedy) : remedy;
  return new AppError(kind, code, withoutPlaces(message, book), withoutPlaces(shown, book));
}

/**
 * An error as the page tells it: without places of the disk, and with what can be done there. Defects are left as they are.
 *
 * @rule BE16
 */
export function toldToPage(error: unknown, book: Book): unknown {
  return error instanceof AppError ? errorToPage(error, book) : error;
}

/** The same as sentences: what it is, and what to do. */
export function sentencesToPage(error: AppError, book: Book): string {
  const { message, remedy } = errorToPage(error, book);
  return `${message.charAt(0).toUpperCase()}${message.slice(1).replace(/\.?$/, '.')} ${remedy}`;
}
