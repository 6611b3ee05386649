import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { AppError } from '../../base/errors';

/** The page sends what it found behind the # of its address; no other page can. */
export const tokenHeader = 'x-evendial-token';

function refused(code: string, message: string): AppError {
  const remedy = "Open the address that 'evendial serve' printed, whole, in a browser on this machine.";
  return new AppError('usage', code, message, remedy);
}

/** Names under which this machine reaches itself. */
const hostsOf = (port: number): string[] => [`127.0.0.1:${port}`, `localhost:${port}`];

/**
 * Refuses a name that is not this machine's own: a foreign name that was made to point here must reach nothing.
 *
 * @source common practice (DNS rebinding)
 * @rule BE9
 */
export function checkHost(headers: IncomingHttpHeaders, port: number): void {
  if (!hostsOf(port).includes(headers.host ?? '')) throw refused('HOST_REFUSED', 'This address is not served.');
}

/**
 * Lets through calls of the page itself only: by the origin that the browser states, and by the token.
 *
 * @rule BE9
 */
export function checkCaller(headers: IncomingHttpHeaders, port: number, token: string): void {
  const { origin } = headers;
  const own = origin === undefined || hostsOf(port).some((host) => origin === `http://${host}`);
  const site = headers['sec-fetch-site'];
  if (!own || (site !== undefined && site !== 'same-origin')) {
    throw refused('ORIGIN_REFUSED', 'Another page may not ask this.');
  }
  const given = headers[tokenHeader];
  // Digests: equal in length, so that the comparison takes the same time whatever was given.
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
  if (typeof given !== 'string' || !timingSafeEqual(digest(given), digest(token))) {
    throw refused('TOKEN_WRONG', 'The page does not know the token of this bench.');
  }
}
