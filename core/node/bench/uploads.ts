import { randomBytes } from 'node:crypto';
import { rmSync } from 'node:fs';
import { mkdir, mkdtemp, open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { photoTooLarge } from '../decode/photo-errors';

/** Signs that some file system gives a meaning, or that no name may hold. */
const noNameSigns = /[\\/:*?"<>|\p{Cc}]/gu;

/** A name for the disk that is as near to the user's as every file system allows; errors of the decoder show it. */
function diskName(name: string): string {
  const signs = [...name.replace(noNameSigns, '_')];
  while (Buffer.byteLength(signs.join('')) > 150) signs.splice(Math.floor(signs.length / 2), 1);
  return signs.join('').replace(/^\.+|[. ]+$/g, '_') || 'photo';
}

/** What is kept, as far as its kind matters. */
export interface UploadKind {
  readonly mostBytes: number;
  readonly tooLarge: (name: string) => AppError;
  /** What the user does to have it kept after all. */
  readonly again: string;
}

/** A photo that the user adds. */
export function photoUpload(mostBytes: number): UploadKind {
  const tooLarge = (name: string): AppError => photoTooLarge(name, `more than ${mostBytes / 2 ** 20} MiB`);
  return { mostBytes, tooLarge, again: 'add the photo again' };
}

/** Said without the folder's place: the page is told none. */
function notKept(name: string, again: string, error: unknown): AppError {
  const full = (error as NodeJS.ErrnoException).code === 'ENOSPC';
  const why = full ? 'the disk is full' : 'the temporary folder cannot be written';
  const remedy = `Make room in the temporary folder, and ${again}.`;
  return new AppError('photo', 'PHOTO_NOT_KEPT', `${name} could not be kept: ${why}.`, remedy);
}

/** Files that came over the wire or are made for the page, in a private folder that is removed at the end. @rule BE7 */
export class Uploads {
  private folder: Promise<string> | null = null;
  private folderPath: string | null = null;

  /** @param photo  the kind that is kept where none is named */
  constructor(private readonly photo: UploadKind) {}

  private readonly removeAtExit = (): void => {
    if (this.folderPath) rmSync(this.folderPath, { recursive: true, force: true });
  };

  private async makeFolder(): Promise<string> {
    // Made for this user only: mkdtemp gives mode 0700.
    this.folderPath = await mkdtemp(path.join(tmpdir(), 'evendial-bench-'));
    process.on('exit', this.removeAtExit);
    return this.folderPath;
  }

  /** In a folder of its own, which `forget` removes. */
  private async place(name: string): Promise<string> {
    this.folder ??= this.makeFolder();
    // One that could not be made is tried again, when there is room perhaps.
    this.folder.catch(() => (this.folder = null));
    const own = path.join(await this.folder, randomBytes(9).toString('base64url'));
    await mkdir(own, { mode: 0o700 });
    return path.join(own, diskName(name));
  }

  /**
   * Keeps a photo as it comes in; never more than its kind may have is read.
   *
   * @returns its place
   * @throws AppError of kind photo; what `bytes` throws
   */
  async keep(name: string, bytes: AsyncIterable<Uint8Array>, kind = this.photo): Promise<string> {
    let place: string | null = null;
    try {
      place = await this.place(name);
      const file = await open(place, 'wx', 0o600);
      try {
        let size = 0;
        for await (const part of bytes) {
          size += part.length;
          if (size > kind.mostBytes) throw kind.tooLarge(name);
          await file.writeFile(part);
        }
      } finally {
        await file.close();
      }
      return place;
    } catch (error) {
      if (place !== null) await this.forget(place);
      const isOfDisk = ['write', 'open', 'mkdir', 'mkdtemp'].includes((error as NodeJS.ErrnoException).syscall ?? '');
      throw isOfDisk ? notKept(name, kind.again, error) : error;
    }
  }

  /** Removes a file that lies in the folder, with what lies beside it; leaves every other file alone. */
  async forget(place: string): Promise<void> {
    const own = path.dirname(place);
    if (this.folderPath === null || path.dirname(own) !== this.folderPath) return;
    await rm(own, { recursive: true, force: true });
  }

  async close(): Promise<void> {
    process.off('exit', this.removeAtExit);
    if (this.folder) await rm(await this.folder, { recursive: true, force: true });
    this.folder = null;
    this.folderPath = null;
  }
}
