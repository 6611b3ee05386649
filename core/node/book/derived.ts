import path from 'node:path';
import type { Book } from './book';
import { withBookErrors } from './book-failures';
import { codeOf } from './file-port';
import { makeFolders } from './new-folder';
import { writeUnfinished } from './whole-file';

/** Where things lie that can be made again: the whole folder may be deleted. */
export const derivedOf = (folder: string): string => path.join(folder, 'derived');

/** Writes a file that can be made again from the record and its originals, whole or not at all. */
export function writeDerived(book: Book, id: string, name: string, content: string | Uint8Array): Promise<void> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return withBookErrors(book.folder, async () => {
    const folder = derivedOf(book.unitFolder(id));
    await makeFolders(book.port, folder);
    const place = path.join(folder, name);
    await book.port.rename(await writeUnfinished(book.port, place, [bytes]), place);
  });
}

/** A file that was made before; null: it is not there, and can be made again. */
export function readDerived(book: Book, id: string, name: string): Promise<Uint8Array | null> {
  return withBookErrors(book.folder, async () => {
    try {
      return await book.port.readFile(path.join(derivedOf(book.unitFolder(id)), name));
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return null;
      throw error;
    }
  });
}
