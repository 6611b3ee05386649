import type { IncomingMessage } from 'node:http';

const mostBytes = 2 ** 20;
const mostMs = 1000;

/**
 * Reads on for a while after a refusal: a sender in the middle of its body would see a broken line instead of the reason.
 *
 * @returns whether the body has come to its end; if not, the line is of no further use
 */
export function passRestOfBody(request: IncomingMessage): Promise<boolean> {
  if (request.complete || request.destroyed) return Promise.resolve(request.complete);
  return new Promise((resolve) => {
    let bytes = 0;
    const finish = (): void => {
      clearTimeout(late);
      request.pause();
      resolve(request.complete);
    };
    const late = setTimeout(finish, mostMs);
    request.on('data', (part: Buffer) => {
      bytes += part.length;
      if (bytes > mostBytes) finish();
    });
    for (const over of ['end', 'close', 'error']) request.once(over, finish);
    request.resume();
  });
}
