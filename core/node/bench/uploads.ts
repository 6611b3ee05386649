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

function notKept(name: string, error: unknown): AppError {
  const full = (error as NodeJS.ErrnoException).code === 'ENOSPC';
  const why = full ? 'the disk is full' : 'the temporary folder cannot be written';
  const remedy = `Make room in ${tmpdir()}, and add the photo again.`;
  return new AppError('photo', 'PHOTO_NOT_KEPT', `${name} could not be kept: ${why}.`, remedy);
}

/** Photos that came over the wire, in a private folder that is removed at the end. @rule BE7 */
export class Uploads {
  private folder: Promise<string> | null = null;
  private folderPath: string | null = null;

  constructor(private readonly mostBytes: number) {}

  private readonly removeAtExit = (): void => {
    if (this.folderPath) rmSync(this.folderPath, { recursive: true, force: true });
  };

  private async makeFolder(): Promise<string> {
    // Made for this user only: mkdtemp gives mode 0700.
    this.folderPath = await mkdtemp(path.join(tmpdir(), 'evendial-bench-'));
    process.on('exit', this.removeAtExit);
    return this.folderPath;
  }

  /**
   * Keeps a photo as it comes in; never more than a photo may have is read.
   *
   * @param mostBytes  of what is no photo
   * @returns its place
   * @throws AppError of kind photo; what `bytes` throws
   */
  async keep(name: string, bytes: AsyncIterable<Uint8Array>, mostBytes = this.mostBytes): Promise<string> {
    this.folder ??= this.makeFolder();
    const own = path.join(await this.folder, randomBytes(9).toString('base64url'));
    const place = path.join(own, diskName(name));
    try {
      await mkdir(own, { mode: 0o700 });
      const file = await open(place, 'wx', 0o600);
      try {
        let size = 0;
        for await (const part of bytes) {
          size += part.length;
          if (size > mostBytes) throw photoTooLarge(name, `more than ${mostBytes / 2 ** 20} MiB`);
          await file.writeFile(part);
        }
      } finally {
        await file.close();
      }
      return place;
    } catch (error) {
      await rm(own, { recursive: true, force: true });
      const { syscall } = error as NodeJS.ErrnoException;
      throw syscall === 'write' || syscall === 'open' || syscall === 'mkdir' ? notKept(name, error) : error;
    }
  }

  /** Removes a photo that lies in the folder; leaves every other file alone. */
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
