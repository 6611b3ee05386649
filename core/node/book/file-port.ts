/** A file being written. */
export interface OpenFile {
  write(bytes: Uint8Array): Promise<void>;
  /** What was written is on the disk once this resolves. */
  fsync(): Promise<void>;
  close(): Promise<void>;
}

export interface FileFacts {
  readonly kind: 'file' | 'folder' | 'other';
  readonly bytes: number;
  /** Changes whenever the content does, of a folder whenever a name in it does. */
  readonly stamp: string;
}

/**
 * All that the book asks of a disk. Errors are those of the system (`code` ENOENT, EEXIST, ENOSPC ...).
 * No call follows a link at the end of its path, but for reading.
 */
export interface FilePort {
  /** A new file; fails with EEXIST when there is anything of this name. */
  openExclusively(file: string): Promise<OpenFile>;
  readFile(file: string): Promise<Uint8Array>;
  readParts(file: string): AsyncIterable<Uint8Array>;
  /** Names in a folder, sorted. */
  list(folder: string): Promise<string[]>;
  /** null: there is nothing of this name. */
  facts(place: string): Promise<FileFacts | null>;
  /** Fails with EEXIST when there is anything of this name. */
  makeFolder(folder: string): Promise<void>;
  /** The names in a folder are on the disk once this resolves. */
  fsyncFolder(folder: string): Promise<void>;
  /** Puts a file in the place of another, at once. A folder never takes the place of one that holds something. */
  rename(from: string, to: string): Promise<void>;
  /** A second name for a file; fails with EEXIST when the name is taken. */
  link(file: string, name: string): Promise<void>;
  unlink(file: string): Promise<void>;
  /** Gives a file another stamp and leaves its content. */
  touch(file: string): Promise<void>;
  /** With everything in it. */
  removeFolder(folder: string): Promise<void>;
}

/** The system's code of an error, or an empty text. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}
