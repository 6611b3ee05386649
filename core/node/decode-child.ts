// The process that decodes photos: a decoder that crashes, hangs or eats memory takes nothing else down.
import { rmSync } from 'node:fs';
import { open } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../base/errors';
import { splitPhoto, type DecodeReply, type DecodeRequest } from './decode/messages';
import { decoderStopped, photoDamaged, photoMemory } from './decode/photo-errors';
import { readPhoto } from './decode/read-photo';

/** What the desktop shell's helper processes have in place of a forked process's channel. */
interface HelperPort {
  on(event: 'message', listener: (event: { readonly data: DecodeRequest }) => void): void;
  postMessage(reply: DecodeReply): void;
}
const { parentPort: helperPort } = process as unknown as { readonly parentPort?: HelperPort };

function sendReply(reply: DecodeReply): void {
  if (helperPort) helperPort.postMessage(reply);
  else if (process.connected) process.send!(reply);
}

/** The parent's private folder, which this process removes when its parent has died. */
let folder: string | null = null;

async function writeParts(pixelFile: string, parts: readonly Uint8Array[]): Promise<void> {
  // Only a file of our own: whatever stands there already is not followed and not overwritten.
  const file = await open(pixelFile, 'wx', 0o600);
  try {
    for (const part of parts) await file.writeFile(part);
  } finally {
    await file.close();
  }
}

async function carryOut(request: DecodeRequest): Promise<DecodeReply> {
  try {
    const { head, parts } = splitPhoto(await readPhoto(request.place, request.region, request.limits));
    await writeParts(request.pixelFile, parts);
    return { head };
  } catch (error) {
    return replyTo(path.basename(request.place), error);
  }
}

function refusal({ kind, code, message, remedy }: AppError, spent: boolean): DecodeReply {
  return { refused: { kind, code, message, remedy }, spent };
}

/** A trap of a WebAssembly decoder, or what its C++ threw, is the photo's doing, as a crash of a native one would be. */
function replyTo(file: string, error: unknown): DecodeReply {
  if (error instanceof AppError) return refusal(error, false);
  if (error instanceof Error && error.name !== 'RuntimeError') return { defect: error.stack ?? error.message };
  return refusal(photoDamaged(file, decoderStopped), true);
}

/** Where the parent cannot see this process's memory; a decoder that never yields is left to the time limit. */
function watchMemory({ place, limits }: DecodeRequest): NodeJS.Timeout | undefined {
  if (process.platform === 'linux') return undefined;
  return setInterval(() => {
    if (process.memoryUsage.rss() <= limits.memoryBytes) return;
    sendReply(refusal(photoMemory(path.basename(place), limits.memoryBytes), true));
  }, 100);
}

function receive(request: DecodeRequest): void {
  folder = path.dirname(request.pixelFile);
  const watch = watchMemory(request);
  void carryOut(request).then((reply) => {
    clearInterval(watch);
    sendReply(reply);
  });
}

if (helperPort) helperPort.on('message', ({ data }) => receive(data));
else process.on('message', receive);
process.on('disconnect', () => {
  if (folder !== null) rmSync(folder, { recursive: true, force: true });
  process.exit(0);
});
