import { createReadStream } from 'node:fs';
import { link, lstat, mkdir, open, readdir, readFile, rename, rm, unlink, utimes } from 'node:fs/promises';
import type { FilePort, OpenFile } from './file-port';

async function openExclusively(file: string): Promise<OpenFile> {
  const handle = await open(file, 'wx', 0o644);
  return {
    // Unlike `write`, which may write only a part.
    write: (bytes) => handle.writeFile(bytes),
    fsync: () => handle.sync(),
    close: () => handle.close(),
  };
}

/** Names are on the disk once this resolves. Windows opens no folders; its file system keeps names in a journal. */
async function fsyncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** The disk of this machine. */
export const diskPort: FilePort = {
  openExclusively,
  readFile,
  readParts: (file) => createReadStream(file, { highWaterMark: 2 ** 20 }) as AsyncIterable<Uint8Array>,
  list: async (folder) => (await readdir(folder)).sort(),
  async facts(place) {
    try {
      const facts = await lstat(place, { bigint: true });
      const kind = facts.isFile() ? 'file' : facts.isDirectory() ? 'folder' : 'other';
      return { kind, bytes: Number(facts.size), stamp: `${facts.mtimeNs}` };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
  },
  makeFolder: (folder) => mkdir(folder),
  fsyncFolder,
  rename,
  link,
  unlink,
  touch(file) {
    const now = new Date();
    return utimes(file, now, now);
  },
  removeFolder: (folder) => rm(folder, { recursive: true, force: true, maxRetries: 3 }),
};
