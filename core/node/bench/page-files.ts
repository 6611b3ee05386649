import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';

/** Kinds of file that a page is made of; nothing else is given out. */
const mediaTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
};

/**
 * What the page may load: its own files, and pictures it has made itself. No address outside, no script in the text,
 * no frame, no form.
 *
 * @source W3C Content Security Policy Level 3
 * @rule BE8
 */
export const contentPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "worker-src 'self'",
  "connect-src 'self'",
  "img-src 'self' blob:",
  "font-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Goes with everything that is given to a page. */
export const safetyHeaders: Readonly<Record<string, string>> = {
  'content-security-policy': contentPolicy,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'cache-control': 'no-store',
};

export interface PageFile {
  readonly mediaType: string;
  readonly bytes: Buffer;
}

/**
 * A file of the page, by the path of its address. Only plain names of known kinds, whatever they stand for afterwards:
 * what leaves the folder, in whichever spelling, has no file.
 *
 * @param pathname  as it stands in the address, still percent-encoded; `/` is index.html
 * @returns null when there is none
 * @rule BE8
 */
export async function readPageFile(folder: string, pathname: string): Promise<PageFile | null> {
  const asked = pathname === '/' ? '/index.html' : pathname;
  // No percent signs, no backslashes, no dots at the start of a part: the page's own files need none.
  if (!/^(\/[A-Za-z0-9_-][A-Za-z0-9._-]*)+$/.test(asked)) return null;
  const mediaType = mediaTypes[path.extname(asked)];
  if (mediaType === undefined) return null;
  const file = path.join(folder, ...asked.split('/'));
  try {
    return (await stat(file)).isFile() ? { mediaType, bytes: await readFile(file) } : null;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    throw error;
  }
}
