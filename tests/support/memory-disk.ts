import path from 'node:path';
import type { FilePort, OpenFile } from '../../core/node/book/file-port';

interface FileNode {
  readonly kind: 'file';
  data: Uint8Array;
  /** What a power cut leaves: the content at the last flush. */
  flushed: Uint8Array;
}
interface FolderNode {
  readonly kind: 'folder';
  names: Map<string, Node>;
  /** What a power cut leaves: the names at the last flush. */
  flushed: Map<string, Node>;
  stamp: number;
}
type Node = FileNode | FolderNode;

/** What a power cut does with what was not flushed. */
export const powerCuts = [
  'all lost',
  'names kept, contents lost',
  'names kept, contents torn',
  'nothing lost',
] as const;
export type PowerCut = (typeof powerCuts)[number];

const newFolder = (): FolderNode => ({ kind: 'folder', names: new Map(), flushed: new Map(), stamp: 0 });

function systemError(code: string, place: string): Error {
  return Object.assign(new Error(`${code}: ${place}`), { code });
}

/** An operation that changes the disk, to be done again on another one. */
type Change = (disk: MemoryDisk) => void;

/**
 * A disk in memory that knows what is flushed: it can lose the rest, do the first operations of another disk again, and
 * fail from an operation on. It is as a journalling file system may be at worst: names and contents are lost apart.
 */
export class MemoryDisk implements FilePort {
  private root = newFolder();
  /** Everything that changed it, in order. */
  readonly changes: Change[] = [];
  /** From this change on each one fails with `failure`. */
  failsFrom = Infinity;
  failure = 'ENOSPC';
  private clock = 0;

  private nodeAt(place: string): Node | undefined {
    return place
      .split(path.sep)
      .filter((step) => step !== '')
      .reduce<Node | undefined>((at, step) => (at?.kind === 'folder' ? at.names.get(step) : undefined), this.root);
  }

  private folderAt(place: string): FolderNode {
    const found = this.nodeAt(place);
    if (found?.kind !== 'folder') throw systemError(found ? 'ENOTDIR' : 'ENOENT', place);
    return found;
  }

  private fileAt(place: string): FileNode {
    const found = this.nodeAt(place);
    if (found?.kind !== 'file') throw systemError(found ? 'EISDIR' : 'ENOENT', place);
    return found;
  }

  private put(place: string, node: Node): void {
    const folder = this.folderAt(path.dirname(place));
    folder.names.set(path.basename(place), node);
    folder.stamp = ++this.clock;
  }

  private putNew(place: string, node: Node): void {
    if (this.nodeAt(place)) throw systemError('EEXIST', place);
    this.put(place, node);
  }

  private take(place: string): Node {
    const node = this.nodeAt(place);
    if (!node) throw systemError('ENOENT', place);
    const folder = this.folderAt(path.dirname(place));
    folder.names.delete(path.basename(place));
    folder.stamp = ++this.clock;
    return node;
  }

  private async change(change: Change): Promise<void> {
    if (this.changes.length >= this.failsFrom) throw systemError(this.failure, 'the disk');
    change(this);
    this.changes.push(change);
  }

  async openExclusively(file: string): Promise<OpenFile> {
    await this.change((disk) => disk.putNew(file, { kind: 'file', data: new Uint8Array(), flushed: new Uint8Array() }));
    return {
      write: (bytes) => {
        const kept = Uint8Array.from(bytes);
        return this.change((disk) => {
          const node = disk.fileAt(file);
          const longer = new Uint8Array(node.data.length + kept.length);
          longer.set(node.data);
          longer.set(kept, node.data.length);
          node.data = longer;
        });
      },
      fsync: () =>
        this.change((disk) => {
          const node = disk.fileAt(file);
          node.flushed = node.data;
        }),
      close: () => Promise.resolve(),
    };
  }

  async readFile(file: string): Promise<Uint8Array> {
    return this.fileAt(file).data;
  }

  async *readParts(file: string): AsyncGenerator<Uint8Array> {
    yield this.fileAt(file).data;
  }

  async list(folder: string): Promise<string[]> {
    return [...this.folderAt(folder).names.keys()].sort();
  }

  async facts(place: string): ReturnType<FilePort['facts']> {
    const node = this.nodeAt(place);
    if (!node) return null;
    if (node.kind === 'file') return { kind: 'file', bytes: node.data.length, stamp: '' };
    return { kind: 'folder', bytes: 0, stamp: String(node.stamp) };
  }

  makeFolder(folder: string): Promise<void> {
    return this.change((disk) => disk.putNew(folder, newFolder()));
  }

  fsyncFolder(folder: string): Promise<void> {
    return this.change((disk) => {
      const node = disk.folderAt(folder);
      node.flushed = new Map(node.names);
    });
  }

  rename(from: string, to: string): Promise<void> {
    return this.change((disk) => {
      const there = disk.nodeAt(to);
      if (there?.kind === 'folder' && there.names.size > 0) throw systemError('ENOTEMPTY', to);
      disk.put(to, disk.take(from));
    });
  }

  link(file: string, name: string): Promise<void> {
    return this.change((disk) => disk.putNew(name, disk.fileAt(file)));
  }

  unlink(file: string): Promise<void> {
    return this.change((disk) => {
      disk.fileAt(file);
      disk.take(file);
    });
  }

  /** It keeps no stamps of files. */
  touch(file: string): Promise<void> {
    return this.change((disk) => void disk.fileAt(file));
  }

  removeFolder(folder: string): Promise<void> {
    return this.change((disk) => {
      if (disk.nodeAt(folder)) disk.take(folder);
    });
  }

  /** Does the changes of another disk from `from` to before `to`. */
  doAgain(other: MemoryDisk, from: number, to: number): void {
    for (const change of other.changes.slice(from, to)) change(this);
  }

  /** The disk as a power cut leaves it. */
  cut(how: PowerCut): MemoryDisk {
    const contentOf = (file: FileNode): Uint8Array => {
      if (how === 'nothing lost') return file.data;
      if (how !== 'names kept, contents torn' || file.flushed.length === file.data.length) return file.flushed;
      return file.data.slice(0, Math.ceil(file.data.length / 2));
    };
    const left = (node: Node): Node => {
      if (node.kind === 'file') return { kind: 'file', data: contentOf(node), flushed: contentOf(node) };
      const names = how === 'all lost' ? node.flushed : node.names;
      const inner = new Map([...names].map(([name, one]) => [name, left(one)]));
      return { kind: 'folder', names: inner, flushed: new Map(inner), stamp: node.stamp };
    };
    const disk = new MemoryDisk();
    disk.root = left(this.root) as FolderNode;
    return disk;
  }
}
