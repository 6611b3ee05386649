import type { Readable } from 'node:stream';
import { open as openZip, type Entry, type ZipFile } from 'yauzl';
import { AppError } from '../../base/errors';
import { systemWords } from '../system-words';
import { archiveLimits, archiveRefused, isEntryName, isPhotoEntry, manifestName } from './archive-format';
import { crc32 } from './crc32';
import { codeOf } from './file-port';

const isLink = (entry: Entry): boolean => ((entry.externalFileAttributes >>> 16) & 0o170000) === 0o120000;

/** An entry's name as it stands there: names of a unit are plain letters in every encoding, others are refused anyway. */
const nameOf = (entry: Entry): string => entry.fileNameRaw.toString('latin1');

/** Why an entry is refused, or null. */
function complaintOf(entry: Entry): string | null {
  const name = JSON.stringify(nameOf(entry)).slice(0, 90);
  if (!isEntryName(nameOf(entry))) return `it holds ${name}, which no unit has`;
  if (isLink(entry)) return `${name} is a link`;
  if (entry.isEncrypted()) return `${name} is encrypted`;
  if (!entry.canDecodeFileData()) return `${name} is packed in a way that is not read`;
  const most = isPhotoEntry(nameOf(entry)) ? archiveLimits.photoBytes : archiveLimits.recordBytes;
  return entry.uncompressedSize > most ? `${name} is too large` : null;
}

/** An opened archive whose entries have been looked at: names, kinds and sizes are as a unit's may be. */
export class OpenArchive {
  private constructor(
    private readonly zip: ZipFile,
    readonly called: string,
    private readonly entries: ReadonlyMap<string, Entry>,
  ) {}

  /** @throws AppError ARCHIVE_REFUSED, ARCHIVE_NOT_READ */
  static async open(file: string, called: string): Promise<OpenArchive> {
    const zip = await openFile(file, called);
    try {
      return new OpenArchive(zip, called, await entriesOf(zip, called));
    } catch (error) {
      zip.close();
      throw error;
    }
  }

  /** Names of its entries, the manifest apart. */
  get names(): string[] {
    return [...this.entries.keys()].filter((name) => name !== manifestName);
  }

  /**
   * An entry's content in parts; after the last one its length and its CRC-32 have been checked.
   *
   * @throws AppError ARCHIVE_REFUSED
   */
  async *read(name: string): AsyncGenerator<Uint8Array> {
    const entry = this.entries.get(name);
    if (!entry) throw archiveRefused(this.called, `${name} is missing`);
    let sum = 0;
    try {
      for await (const part of await this.stream(entry)) {
        const bytes = part as Uint8Array;
        sum = crc32(bytes, sum);
        yield bytes;
      }
    } catch (error) {
      if (error instanceof AppError || /^E[A-Z]+$/.test(codeOf(error))) throw error;
      throw archiveRefused(this.called, `${name} cannot be unpacked`);
    }
    if (sum !== entry.crc32) throw archiveRefused(this.called, `${name} has a wrong CRC`);
  }

  private stream(entry: Entry): Promise<Readable> {
    return new Promise((resolve, reject) => {
      this.zip.openReadStream(entry, (error, stream) => (error ? reject(error) : resolve(stream)));
    });
  }

  close(): void {
    this.zip.close();
  }
}

function openFile(file: string, called: string): Promise<ZipFile> {
  const options = { lazyEntries: true, autoClose: false, decodeStrings: false, validateEntrySizes: true } as const;
  return new Promise((resolve, reject) => {
    openZip(file, options, (error, zip) => {
      if (!error) resolve(zip);
      else if (/^E[A-Z]+$/.test(codeOf(error))) {
        const message = `${called} cannot be read: ${systemWords(error)}`;
        reject(new AppError('usage', 'ARCHIVE_NOT_READ', message, 'Check its name and the folder.'));
      } else reject(archiveRefused(called, 'it is no whole zip file'));
    });
  });
}

/** Looks at every entry of the table of contents; stops at the first that is wrong. */
function entriesOf(zip: ZipFile, called: string): Promise<ReadonlyMap<string, Entry>> {
  const entries = new Map<string, Entry>();
  let [packed, unpacked] = [0, 0];
  return new Promise((resolve, reject) => {
    const refuse = (why: string): void => reject(archiveRefused(called, why));
    zip.on('error', () => refuse('its table of contents is damaged'));
    zip.on('end', () => {
      // Entries that lie over each other would unpack the same bytes many times.
      if (packed > zip.fileSize) refuse('its entries are longer than the file');
      else if (unpacked > zip.fileSize * archiveLimits.ratio + archiveLimits.freeBytes)
        refuse('it unpacks to far more than a unit holds');
      else if (!entries.has(manifestName)) refuse(`it has no ${manifestName}`);
      else resolve(entries);
    });
    zip.on('entry', (entry: Entry) => {
      const complaint = complaintOf(entry);
      if (complaint !== null) return refuse(complaint);
      if (entries.has(nameOf(entry))) return refuse(`it holds ${nameOf(entry)} twice`);
      if (entries.size >= archiveLimits.entries) return refuse('it holds too many files');
      entries.set(nameOf(entry), entry);
      packed += entry.compressedSize;
      unpacked += entry.uncompressedSize;
      zip.readEntry();
    });
    zip.readEntry();
  });
}
