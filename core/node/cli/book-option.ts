import { bookFolder } from '../book/book-folder';
import { usageError, type GivenArguments } from './arguments';
import type { Shell } from './shell';

/** The folder that --book names, else the user's own. @throws AppError of kind usage @rule BK25 */
export function readBookFolder({ values }: GivenArguments, shell: Pick<Shell, 'folder'>): string {
  if (values.get('book') === '') throw usageError('--book names no folder', 'Name the folder of the book.');
  return bookFolder(values.get('book'), shell.folder);
}
