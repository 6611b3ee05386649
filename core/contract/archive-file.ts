import { AppError } from '../base/errors';

/** A unit in one file, by its name. */
export const archiveEnding = '.evendial';
export const hasArchiveEnding = (name: string): boolean => name.toLowerCase().endsWith(archiveEnding);

/** A unit in one file that is larger than the bench takes over the wire; the window and a command read it where it lies. @rule BE7 */
export function archiveTooLarge(name: string, mostBytes: number): AppError {
  const message = `${name} is too large to be taken in here: more than ${mostBytes / 2 ** 20} MiB.`;
  const remedy =
    'In the window of Evendial, “Bring in a unit file” reads it where it lies, whatever its size; so does unit import on the command line.';
  return new AppError('usage', 'ARCHIVE_TOO_LARGE', message, remedy);
}
