import path from 'node:path';
import type { Book } from './book';
import { withBookErrors } from './book-failures';
import { makeFolders } from './new-folder';
import { writeUnfinished } from './whole-file';

/** Where things lie that can be made again: the whole folder may be deleted. */
export const derivedOf = (folder: string): string => path.join(folder, 'derived');

/** Writes a file that can be made again from the record and its originals, whole or not at all. */
export function writeDerived(book: Book, id: string, name: string, text: string): Promise<void> {
  return withBookErrors(book.folder, async () => {
    const folder = derivedOf(book.unitFolder(id));
    await makeFolders(book.port, folder);
    const place = path.join(folder, name);
    await book.port.rename(await writeUnfinished(book.port, place, [new TextEncoder().encode(text)]), place);
  });
}
