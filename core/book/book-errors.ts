import { AppError } from '../base/errors';

/** An error of the book: the command line ends with 6. */
export function bookError(code: string, message: string, remedy: string): AppError {
  return new AppError('book', code, message, remedy);
}

/** What was asked of the book cannot be: the command line ends with 2. */
export function askedWrongly(code: string, message: string, remedy: string): AppError {
  return new AppError('usage', code, message, remedy);
}

/** Names as a message lists them. */
export function listOfNames(names: readonly string[]): string {
  return names.length === 0 ? 'there is none yet' : names.map((name) => JSON.stringify(name)).join(', ');
}
