import { z } from 'zod';
import { AppError } from '../../base/errors';
import { bookError } from '../../book/book-errors';

/** The first entry of an archive: what is in it. */
export const manifestName = 'archive.json';

const manifest = z.strictObject({
  format: z.literal('evendial-archive'),
  version: z.literal(1),
  /** Id of the unit. */
  unit: z.string().regex(/^[a-z0-9](?:[a-z0-9-]{0,78}[a-z0-9])?$/),
  name: z.string(),
  /** Photos were made again without personal data. */
  shared: z.boolean(),
  files: z.array(
    z.strictObject({ name: z.string(), bytes: z.int().min(0), sha256: z.string().regex(/^[0-9a-f]{64}$/) }),
  ),
});
export type ArchiveManifest = z.infer<typeof manifest>;

/** What an archive may hold at most: far beyond any unit, far below what would fill a disk unseen. Our own choice. */
export const archiveLimits = {
  entries: 20_000,
  recordBytes: 16 * 2 ** 20,
  photoBytes: 2 ** 30,
  /** All that is unpacked, over the archive's own size: photos hardly shrink, records by ten or twenty. */
  ratio: 50,
  freeBytes: 64 * 2 ** 20,
} as const;

const entryName = /^(?:revisions\/[1-9]\d{0,8}\.json|photos\/[0-9a-f]{64}\.[a-z0-9]{1,8})$/;

/** Whether an entry may have this name; nothing else is ever unpacked. */
export function isEntryName(name: string): boolean {
  return name === manifestName || entryName.test(name);
}

export const isPhotoEntry = (name: string): boolean => name.startsWith('photos/');

/** An archive that is not taken: damaged, or made to harm. Nothing was written. */
export function archiveRefused(called: string, why: string): AppError {
  const message = `${called} is refused: ${why}`;
  return new AppError('usage', 'ARCHIVE_REFUSED', message, 'Nothing was written. Ask for the archive again.');
}

/** @throws AppError ARCHIVE_REFUSED, ARCHIVE_TOO_NEW */
export function readManifest(text: string, called: string): ArchiveManifest {
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch {
    throw archiveRefused(called, `its ${manifestName} is no JSON`);
  }
  const version = typeof given === 'object' && given !== null && 'version' in given ? given.version : undefined;
  if (typeof version === 'number' && version > 1) {
    const message = `${called} is an archive of version ${version}; this program reads version 1`;
    throw bookError('ARCHIVE_TOO_NEW', message, 'Use a newer version of this program. Nothing was written.');
  }
  const read = manifest.safeParse(given);
  if (!read.success) throw archiveRefused(called, `its ${manifestName} is not as it should be`);
  return read.data;
}
