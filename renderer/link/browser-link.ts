import { archiveTooLarge, hasArchiveEnding } from '../../core/contract/archive-file';
import type { BenchError, BenchEvent, BenchVerb, BenchVerbs } from '../../core/contract/bench';
import { unpackValue } from '../../core/contract/packed';
import { CallFailed, type AddedFile, type BenchLink } from './bench-link';
import { callWithSignal } from './call-with-signal';
import { readEvents } from './event-stream';

const tokenKey = 'evendial-token';
/** After the event stream has ended, it is asked for again. */
const pauseMs = 2000;

const noHost: BenchError = {
  kind: 'engine-stopped',
  code: 'HOST_GONE',
  message: 'The bench does not answer.',
  remedy: "Start 'evendial serve' again, and open the address that it prints.",
};

/** The token from behind the # of the address, which is then put away: an address is easily copied or shown. */
function takeToken(): string {
  const given = location.hash.slice(1);
  if (given !== '') {
    sessionStorage.setItem(tokenKey, given);
    history.replaceState(null, '', location.pathname);
  }
  return sessionStorage.getItem(tokenKey) ?? '';
}

function isBenchError(value: unknown): value is BenchError {
  return typeof value === 'object' && value !== null && 'kind' in value && 'code' in value && 'remedy' in value;
}

async function errorOf(response: Response): Promise<BenchError> {
  const text = await response.text();
  try {
    const { error } = JSON.parse(text) as { error?: unknown };
    if (isBenchError(error)) return error;
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
  }
  return { ...noHost, code: 'ANSWER_UNKNOWN', message: `The bench answered with ${response.status}.` };
}

/** The bench of `evendial serve`. */
export function createBrowserLink(): BenchLink {
  const token = takeToken();
  const listeners = new Set<(event: BenchEvent) => void>();
  let isListening = false;

  async function ask(path: string, body?: BodyInit, headers: Record<string, string> = {}): Promise<Response> {
    let response: Response;
    try {
      response = await fetch(path, {
        method: body === undefined ? 'GET' : 'POST',
        headers: { 'x-evendial-token': token, ...headers },
        ...(body === undefined ? {} : { body }),
      });
    } catch (error) {
      // What fetch throws is one TypeError for every failing of the line.
      if (error instanceof TypeError) throw new CallFailed(noHost);
      throw error;
    }
    if (!response.ok) throw new CallFailed(await errorOf(response));
    return response;
  }

  async function answerOf(response: Response): Promise<unknown> {
    try {
      return unpackValue(new Uint8Array(await response.arrayBuffer()));
    } catch (error) {
      if (error instanceof TypeError || error instanceof RangeError) throw new CallFailed(noHost);
      throw error;
    }
  }

  async function send(verb: BenchVerb, call: string, asks: unknown): Promise<unknown> {
    const body = JSON.stringify({ call, asks });
    return answerOf(await ask(`/call/${verb}`, body, { 'content-type': 'application/json' }));
  }

  /** Listens as long as anyone does, through ends of the line. */
  async function listen(): Promise<void> {
    if (isListening) return;
    isListening = true;
    while (listeners.size > 0) {
      try {
        const { body } = await ask('/events');
        if (body) await readEvents(body, (event) => listeners.forEach((listener) => listener(event)));
      } catch (error) {
        // The calls tell that the host is gone; the events only come back when it does.
        if (!(error instanceof CallFailed) && !(error instanceof TypeError)) throw error;
      }
      await new Promise((resolve) => setTimeout(resolve, pauseMs));
    }
    isListening = false;
  }

  function onEvent(listener: (event: BenchEvent) => void): () => void {
    listeners.add(listener);
    void listen();
    return () => void listeners.delete(listener);
  }

  async function addPhoto(file: File, mostBytes: number): Promise<AddedFile> {
    const { name, size } = file;
    if (size > mostBytes && hasArchiveEnding(name)) {
      const { code, message, remedy } = archiveTooLarge(name, mostBytes);
      return { kind: 'usage', code, message, remedy, name };
    }
    if (size > mostBytes) {
      const message = `${name} is too large: ${(size / 2 ** 20).toFixed(0)} MiB, at most ${mostBytes / 2 ** 20} MiB are read.`;
      const remedy = 'Cut the photo to the part that shows the window, or use a smaller picture size in the camera.';
      return { kind: 'photo', code: 'PHOTO_TOO_LARGE', message, remedy, name };
    }
    try {
      const headers = { 'x-evendial-name': encodeURIComponent(name), 'content-type': 'application/octet-stream' };
      return (await answerOf(await ask('/photos', file, headers))) as AddedFile;
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      const { kind, code, message, remedy } = error;
      return { kind, code, message, remedy, name };
    }
  }

  return {
    call: async (verb, asks, options) => {
      const wire = {
        send: (call: string) => send(verb, call, asks),
        cancel: (call: string) => void send('cancel', crypto.randomUUID(), { call }).catch(() => undefined),
        onEvent,
      };
      return (await callWithSignal(wire, options)) as BenchVerbs[typeof verb]['answers'];
    },
    async addPhotos(files) {
      const hello = (await send('hello', crypto.randomUUID(), {})) as BenchVerbs['hello']['answers'];
      const mostBytes = ({ name }: File): number =>
        hasArchiveEnding(name) ? hello.mostArchiveBytes : hello.mostPhotoBytes;
      const added: AddedFile[] = [];
      // One after the other: each is read from the disk only when its turn has come.
      for (const file of files) added.push(await addPhoto(file, mostBytes(file)));
      return added;
    },
    onEvent,
  };
}
