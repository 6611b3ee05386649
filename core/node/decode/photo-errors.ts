import { AppError } from '../../base/errors';

const exportRemedy = 'Export it as a 16-bit TIFF or a JPEG, with its colour profile embedded, and use that file.';
const copyRemedy = 'Copy it again from the camera or card, or use another photo of the series.';

/** What a file that is no picture is called: 'not a picture (it begins like text)'. */
const noPicture = 'not a picture';

/** A file of a kind that is not read. `what` names the kind: 'a camera raw file'. */
export function formatUnsupported(file: string, what: string): AppError {
  if (what.startsWith(noPicture)) {
    const remedy = `Did you name the right file?${what.includes('text') ? '' : ` If it is a photo: ${exportRemedy}`}`;
    return new AppError('photo', 'PHOTO_FORMAT_UNSUPPORTED', `${file} is ${what}.`, remedy);
  }
  return new AppError('photo', 'PHOTO_FORMAT_UNSUPPORTED', `${file} is ${what}, which is not read.`, exportRemedy);
}

export function photoMissing(file: string): AppError {
  return new AppError('photo', 'PHOTO_MISSING', `${file} does not exist.`, 'Check the name and the folder.');
}

export function photoUnreadable(file: string, reason: string): AppError {
  const remedy = 'Name a photo file that you may read.';
  return new AppError('photo', 'PHOTO_UNREADABLE', `${file} cannot be read: ${reason}.`, remedy);
}

export function photoEmpty(file: string): AppError {
  return new AppError('photo', 'PHOTO_EMPTY', `${file} is empty: it holds no bytes.`, copyRemedy);
}

/** The reason where a decoder crashed. */
export const decoderStopped = 'the decoder stopped while reading it';

/** What decoder libraries say, in plain words; the first that fits counts. */
const plainReasons: readonly (readonly [says: RegExp, reason: string])[] = [
  [
    /premature end|truncated|unexpected end|end of (?:file|stream|data)|too short|read gave/i,
    'it ends too early, as a half-copied file does',
  ],
  [
    /bad huffman|corrupt|crc|checksum|bad .*(?:code|marker)|invalid (?:code|distance|block)|incorrect data/i,
    'its content is not what its format asks for',
  ],
  [/unsupported|not supported/i, 'it uses a part of its format that is not read'],
];

/** A reason as a person reads it: libraries' own names and words are left out. */
function plainReason(reason: string): string {
  const known = plainReasons.find(([says]) => says.test(reason));
  if (known) return known[1];
  return /^vips|vips\w*:|error/i.test(reason) ? 'it cannot be decoded' : reason;
}

export function photoDamaged(file: string, reason: string): AppError {
  return new AppError('photo', 'PHOTO_DAMAGED', `${file} is damaged: ${plainReason(reason)}.`, copyRemedy);
}

/** `reason` holds the size and the limit. */
export function photoTooLarge(file: string, reason: string): AppError {
  const remedy = 'Cut the photo to the part that shows the window, or use a smaller picture size in the camera.';
  return new AppError('photo', 'PHOTO_TOO_LARGE', `${file} is too large: ${reason}.`, remedy);
}

/** `claim` holds the pixels and the bytes. */
export function photoTooEmpty(file: string, claim: string): AppError {
  const message = `${file} claims ${claim}: no photo of a camera is so small.`;
  const remedy = 'Copy it again from the camera or card, or cut the photo to the part that shows the window.';
  return new AppError('photo', 'PHOTO_TOO_EMPTY', message, remedy);
}

export function photoTooSlow(file: string, limitMs: number): AppError {
  const message = `${file} was not decoded within ${limitMs / 1000} s.`;
  return new AppError('photo', 'PHOTO_TOO_SLOW', message, `Try again on a less busy computer. ${exportRemedy}`);
}

export function photoMemory(file: string, limitBytes: number): AppError {
  const message = `Decoding ${file} needs more than ${Math.round(limitBytes / 2 ** 20)} MiB of memory.`;
  return new AppError('photo', 'PHOTO_MEMORY', message, 'Cut the photo to the part that shows the window.');
}

export function decodeCancelled(file: string): AppError {
  return new AppError('cancelled', 'DECODE_CANCELLED', `Reading ${file} was stopped.`, 'Start again when you like.');
}
