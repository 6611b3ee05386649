import { fromBuffer, type Entry } from 'yauzl';
import { readFileSync } from 'node:fs';
import { text } from 'node:stream/consumers';

/** Everything in a zip file, by name, as text. */
export function zipContents(file: string | Uint8Array): Promise<Record<string, string>> {
  const bytes = typeof file === 'string' ? readFileSync(file) : Buffer.from(file);
  return new Promise((resolve, reject) => {
    fromBuffer(bytes, { lazyEntries: true }, (failure, zip) => {
      if (failure) return reject(failure);
      const contents: Record<string, string> = {};
      zip.on('error', reject);
      zip.on('end', () => resolve(contents));
      zip.on('entry', (entry: Entry) => {
        zip.openReadStream(entry, (refused, stream) => {
          if (refused) return reject(refused);
          text(stream).then((content) => {
            contents[entry.fileName] = content;
            zip.readEntry();
          }, reject);
        });
      });
      zip.readEntry();
    });
  });
}
