/** What an error makes the command line return: see the exit codes in the contract. */
export type ErrorKind = 'usage' | 'photo' | 'outline' | 'refusal' | 'book' | 'cancelled';

/**
 * An expected failure that a user can meet: what happened, and what to do about it.
 * Everything else that is thrown is a defect of ours.
 */
export class AppError extends Error {
  constructor(
    readonly kind: ErrorKind,
    readonly code: string,
    message: string,
    readonly remedy: string,
  ) {
    super(message);
    this.name = 'AppError';
  }
}

/** Closes a tagged union: reaching it is a defect. */
export function assertNever(value: never): never {
  throw new TypeError(`unexpected value: ${JSON.stringify(value)}`);
}
