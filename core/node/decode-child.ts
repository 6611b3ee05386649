// The process that decodes photos: a decoder that crashes, hangs or eats memory takes nothing else down.
import { rmSync } from 'node:fs';
import { open } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../base/errors';
import { splitPhoto, type DecodeReply, type DecodeRequest } from './decode/messages';
import { readPhoto } from './decode/read-photo';

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
    if (error instanceof AppError) {
      const { kind, code, message, remedy } = error;
      return { refused: { kind, code, message, remedy } };
    }
    return { defect: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

process.on('message', (request: DecodeRequest) => {
  folder = path.dirname(request.pixelFile);
  void carryOut(request).then((reply) => {
    if (process.connected) process.send!(reply);
  });
});
process.on('disconnect', () => {
  if (folder !== null) rmSync(folder, { recursive: true, force: true });
  process.exit(0);
});
