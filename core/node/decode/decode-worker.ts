import { existsSync, rmSync } from 'node:fs';
import { mkdtemp, open, readFile, rm, type FileHandle } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { AppError } from '../../base/errors';
import type { DecodedPhoto } from '../../photo/decoded-photo';
import type { DecoderOptions } from '../decode-process';
import { forkDecodeChild, type DecodeChild } from './decode-child-process';
import { partLengthsOf, photoFrom, type DecodedHead, type DecodeReply, type DecodeRequest } from './messages';
import { decodeCancelled, decoderStopped, photoDamaged, photoMemory, photoTooSlow } from './photo-errors';

/** A child that holds more than this between two photos is replaced: WebAssembly memory never shrinks. */
const restingBytes = 700 * 2 ** 20;
const memoryCheckMs = 100;
const closeMs = 2000;

/** The child stands beside the bundled program, or in dist/ when the sources run. */
function findChildFile(): string {
  const beside = path.join(__dirname, 'decode-child.cjs');
  return existsSync(beside) ? beside : path.resolve(__dirname, '../../../dist/decode-child.cjs');
}

/** Resident memory of a process; null where the system does not show it as a file. */
async function residentBytes(pid: number): Promise<number | null> {
  if (process.platform !== 'linux') return null;
  const text = await readFile(`/proc/${pid}/status`, 'utf8').catch(() => '');
  const found = /^VmRSS:\s+(\d+) kB/m.exec(text);
  return found ? Number(found[1]) * 1024 : null;
}

/** A fresh array, filled from where the file stands. */
async function readPart(file: FileHandle, length: number): Promise<Uint8Array> {
  const part = new Uint8Array(length);
  for (let filled = 0; filled < length;) {
    const { bytesRead } = await file.read(part, filled, length - filled);
    if (bytesRead === 0) throw new Error('the pixel file ends too early');
    filled += bytesRead;
  }
  return part;
}

/** A decoded photo as the child leaves it. */
export interface PixelFile {
  readonly path: string;
  readonly head: DecodedHead;
}

/** The photo out of its pixel file. */
export async function readPixelFile({ path: place, head }: PixelFile): Promise<DecodedPhoto> {
  const file = await open(place, 'r');
  try {
    const parts: Uint8Array[] = [];
    for (const length of partLengthsOf(head)) parts.push(await readPart(file, length));
    return photoFrom(head, parts);
  } finally {
    await file.close();
  }
}

/** A process that ends by itself is our defect; one that the system ended was brought down by the photo. */
function endOf(file: string, exitCode: number | null): Error {
  if (exitCode !== null) return new Error(`the decoding child ended with code ${exitCode}`);
  return photoDamaged(file, decoderStopped);
}

/** After these the child is in the middle of a photo, or gone. */
const forcedCodes = ['PHOTO_TOO_SLOW', 'PHOTO_MEMORY', 'DECODE_CANCELLED'];

/** One child process and the private folder through which its pixels come. */
export class DecodeWorker {
  private child: DecodeChild | null = null;
  private folder: string | null = null;
  private count = 0;
  private stopCurrent: (() => void) | null = null;
  private closed = false;

  constructor(private readonly options: Pick<DecoderOptions, 'build' | 'childFile' | 'startChild'>) {}

  private readonly endWithParent = (): void => {
    this.child?.kill();
    if (this.folder) rmSync(this.folder, { recursive: true, force: true });
  };

  private async folderReady(): Promise<string> {
    if (!this.folder) {
      this.folder = await mkdtemp(path.join(tmpdir(), 'evendial-decode-'));
      process.on('exit', this.endWithParent);
    }
    return this.folder;
  }

  private childReady(): DecodeChild {
    if (this.child) return this.child;
    const { build, childFile = findChildFile(), startChild = forkDecodeChild } = this.options;
    if (!existsSync(childFile)) throw new Error(`the decoding child ${childFile} is missing: run the build`);
    const env: NodeJS.ProcessEnv = { ...process.env, ...(build ? { EVENDIAL_DECODER: build } : {}) };
    delete env['NODE_OPTIONS'];
    const child = startChild(childFile, env);
    const forget = (): void => {
      if (this.child === child) this.child = null;
    };
    child.listen(
      () => undefined,
      forget,
      () => undefined,
    );
    this.child = child;
    return child;
  }

  /** A decoder in the middle of a photo answers nothing else. Resolves when the process is gone. */
  private async kill(): Promise<void> {
    const { child } = this;
    this.child = null;
    if (!child || child.hasEnded) return;
    await new Promise<void>((resolve) => {
      const late = setTimeout(resolve, closeMs);
      const gone = (): void => {
        clearTimeout(late);
        resolve();
      };
      child.listen(
        () => undefined,
        gone,
        () => undefined,
      );
      child.kill();
    });
  }

  /** Sends one photo and waits for the reply, the end of the child, a limit, or the signal. */
  private converse(request: DecodeRequest, signal: AbortSignal | undefined): Promise<DecodeReply> {
    const child = this.childReady();
    const file = path.basename(request.place);
    const { limits } = request;
    return new Promise<DecodeReply>((resolve, reject) => {
      const timer = setTimeout(() => finish(() => reject(photoTooSlow(file, limits.timeMs))), limits.timeMs);
      const watch = setInterval(() => {
        void residentBytes(child.pid ?? 0).then((bytes) => {
          if (bytes !== null && bytes > limits.memoryBytes) finish(() => reject(photoMemory(file, limits.memoryBytes)));
        });
      }, memoryCheckMs);
      const cancel = (): void => finish(() => reject(decodeCancelled(file)));
      const onReply = (reply: DecodeReply): void => finish(() => resolve(reply));
      const onEnd = (code: number | null): void => finish(() => reject(endOf(file, code)));
      const onError = (error: Error): void => finish(() => reject(error));
      const finish = (settle: () => void): void => {
        clearTimeout(timer);
        clearInterval(watch);
        signal?.removeEventListener('abort', cancel);
        stopListening();
        this.stopCurrent = null;
        settle();
      };
      this.stopCurrent = cancel;
      signal?.addEventListener('abort', cancel, { once: true });
      const stopListening = child.listen(onReply, onEnd, onError);
      child.hold(true);
      child.send(request);
      if (signal?.aborted || this.closed) cancel();
    });
  }

  /**
   * @param take  reads the pixel file, which is removed afterwards
   * @throws AppError as the child says, or of a limit; Error for a defect
   */
  async decode<T>(
    asked: Omit<DecodeRequest, 'pixelFile'>,
    take: (pixels: PixelFile) => Promise<T>,
    signal: AbortSignal | undefined,
  ): Promise<T> {
    const pixelFile = path.join(await this.folderReady(), `photo-${++this.count}.bin`);
    if (this.closed) {
      // Closed while the folder was being made: it is there only now, and has to go.
      await this.close();
      throw decodeCancelled(path.basename(asked.place));
    }
    try {
      const reply = await this.converse({ ...asked, pixelFile }, signal);
      if ('defect' in reply) throw new Error(`decoding failed: ${reply.defect}`);
      if ('head' in reply) return await take({ path: pixelFile, head: reply.head });
      if (reply.spent) await this.kill();
      const { kind, code, message, remedy } = reply.refused;
      throw new AppError(kind, code, message, remedy);
    } catch (error) {
      // A refusal is an orderly answer; everything else leaves the child in a state that nobody knows.
      if (!(error instanceof AppError) || forcedCodes.includes(error.code)) await this.kill();
      throw error;
    } finally {
      await rm(pixelFile, { force: true });
      await this.rest();
    }
  }

  /** Between photos: a grown child is replaced, and a small one does not keep the program alive. */
  private async rest(): Promise<void> {
    const { child } = this;
    if (!child) return;
    const bytes = await residentBytes(child.pid ?? 0);
    if (this.closed || (bytes ?? 0) > restingBytes) await this.kill();
    child.hold(false);
  }

  async close(): Promise<void> {
    this.closed = true;
    this.stopCurrent?.();
    await this.kill();
    process.off('exit', this.endWithParent);
    if (this.folder) await rm(this.folder, { recursive: true, force: true, maxRetries: 5 });
    this.folder = null;
  }
}
