import { AppError } from '../../base/errors';
import { bookError } from '../../book/book-errors';
import { systemWords } from '../system-words';
import { codeOf } from './file-port';

const remedies: Readonly<Record<string, string>> = {
  ENOSPC: 'Make room on the disk and do it again; what was saved before is whole.',
  EROFS: 'Use a book in a folder that you may write to (--book DIR).',
  EACCES: 'Use a book in a folder that you may write to (--book DIR), or change its permissions.',
  EPERM: 'Use a book in a folder that you may write to (--book DIR), or change its permissions.',
};

/**
 * Does something with the book; what the disk refuses becomes an error that a person can act on.
 *
 * @param folder  the book's, for the message
 * @throws AppError BOOK_NOT_USABLE, or as `act`
 * @rule BK19
 */
export async function withBookErrors<T>(folder: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    if (error instanceof AppError || !/^E[A-Z]+$/.test(codeOf(error))) throw error;
    const remedy = remedies[codeOf(error)] ?? "Look at the disk; 'evendial unit check' tells what is whole.";
    throw bookError('BOOK_NOT_USABLE', `the book in ${folder} cannot be used: ${systemWords(error)}`, remedy);
  }
}
