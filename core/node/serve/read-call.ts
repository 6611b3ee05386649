import type { IncomingMessage } from 'node:http';
import { AppError } from '../../base/errors';

/** Paint and patches of many points fit in; photos do not come this way. */
const mostBytes = 4 * 2 ** 20;

function askedWrongly(message: string): AppError {
  return new AppError('usage', 'ASKED_WRONGLY', message, 'Load the page again.');
}

/** The body of a call: `{ "call": ID, "asks": ... }`. @throws AppError CALL_TOO_LARGE, ASKED_WRONGLY @rule BE10 */
export async function readCall(request: IncomingMessage): Promise<{ call: string; asks: unknown }> {
  const parts: Buffer[] = [];
  let size = 0;
  // Left open when it is refused: the sender is to hear why.
  for await (const part of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
    size += part.length;
    if (size > mostBytes) {
      throw new AppError('usage', 'CALL_TOO_LARGE', 'The call is too large.', 'Paint fewer or simpler patches.');
    }
    parts.push(part);
  }
  let body: unknown;
  try {
    body = JSON.parse(Buffer.concat(parts).toString('utf8'));
  } catch (error) {
    if (error instanceof SyntaxError) throw askedWrongly('The call is no JSON.');
    throw error;
  }
  if (typeof body !== 'object' || body === null || !('call' in body) || !('asks' in body)) {
    throw askedWrongly('The call has no name, or asks nothing.');
  }
  const { call, asks } = body;
  if (typeof call !== 'string' || !/^[\w-]{1,64}$/.test(call)) throw askedWrongly('The call has no name.');
  return { call, asks };
}
