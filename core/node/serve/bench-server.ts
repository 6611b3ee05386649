import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { AppError } from '../../base/errors';
import { hasArchiveEnding } from '../../contract/archive-file';
import { packValue } from '../../contract/packed';
import { benchErrorOf } from '../bench/bench-error';
import { archiveUpload } from '../bench/archives';
import type { BenchHost } from '../bench/host';
import { defaultPhotoLimits } from '../decode/photo-limits';
import { readCall } from './read-call';
import { checkCaller, checkHost } from './guard';
import { passRestOfBody } from './rest-of-body';
import { readPageFile, safetyHeaders } from '../bench/page-files';
import { photoUpload, type Uploads } from '../bench/uploads';

export interface BenchServerOptions {
  readonly host: BenchHost;
  readonly uploads: Uploads;
  /** The page's files. */
  readonly pageFolder: string;
  readonly token: string;
  /** 0: any free one. */
  readonly port: number;
  /** Told of every defect; the page is told less. */
  readonly onDefect: (error: unknown) => void;
}

export interface BenchServer {
  readonly port: number;
  close(): Promise<void>;
}

/** Comments on an idle event stream keep both ends sure of each other. */
const heartbeatMs = 15_000;

const statusOf: Readonly<Record<string, number>> = {
  HOST_REFUSED: 421,
  ORIGIN_REFUSED: 403,
  TOKEN_WRONG: 401,
  NOTHING_THERE: 404,
  VERB_UNKNOWN: 404,
  METHOD_REFUSED: 405,
  CALL_TOO_LARGE: 413,
  PHOTO_TOO_LARGE: 413,
  ARCHIVE_TOO_LARGE: 413,
};

async function sendError(request: IncomingMessage, response: ServerResponse, error: unknown): Promise<void> {
  const isWhole = await passRestOfBody(request);
  const told = benchErrorOf(error);
  const status = statusOf[told.code] ?? (told.kind === 'engine-stopped' ? 500 : 422);
  const line = isWhole ? {} : { connection: 'close' };
  response.writeHead(status, { ...safetyHeaders, ...line, 'content-type': 'application/json' });
  response.end(JSON.stringify({ error: told }));
}

function nameOf(request: IncomingMessage): string {
  const given = request.headers['x-evendial-name'];
  try {
    if (typeof given === 'string' && given !== '') return decodeURIComponent(given).slice(0, 400);
  } catch (error) {
    if (!(error instanceof URIError)) throw error;
  }
  const remedy = 'Send the name in x-evendial-name, as encodeURIComponent writes it.';
  throw new AppError('usage', 'NAME_MISSING', 'a photo came without a name', remedy);
}

/**
 * Serves the bench to a browser on this machine: the page, the verbs, the photos and the events. Bound to the loopback
 * address; nothing else on the network reaches it.
 *
 * @rule BE8, BE9, BE10
 */
export async function startBenchServer(options: BenchServerOptions): Promise<BenchServer> {
  const { host, uploads, token } = options;
  let port = options.port;

  async function giveStatic(pathname: string, response: ServerResponse): Promise<void> {
    const file = await readPageFile(options.pageFolder, pathname);
    if (!file) throw new AppError('usage', 'NOTHING_THERE', 'There is nothing at this address.', 'Open / instead.');
    response.writeHead(200, { ...safetyHeaders, 'content-type': file.mediaType }).end(file.bytes);
  }

  async function answerCall(verb: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { call, asks } = await readCall(request);
    let answered = false;
    // A page that has gone away needs no answer.
    response.once('close', () => {
      if (!answered && verb !== 'cancel') void host.call('cancel', '', { call });
    });
    try {
      const packed = packValue(await host.call(verb, call, asks));
      response.writeHead(200, { ...safetyHeaders, 'content-type': 'application/octet-stream' });
      response.end(packed);
    } finally {
      answered = true;
    }
  }

  async function addPhoto(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const name = nameOf(request);
    const archive = hasArchiveEnding(name) ? archiveUpload : undefined;
    const declared = Number(request.headers['content-length'] ?? 0);
    const { mostBytes, tooLarge } = archive ?? photoUpload(defaultPhotoLimits.fileBytes);
    if (declared > mostBytes) throw tooLarge(name);
    const place = await uploads.keep(name, request.iterator({ destroyOnReturn: false }), archive);
    try {
      const packed = packValue(await host.addFile(place, name));
      response.writeHead(200, { ...safetyHeaders, 'content-type': 'application/octet-stream' }).end(packed);
    } catch (error) {
      await uploads.forget(place);
      throw error;
    }
  }

  function giveEvents(response: ServerResponse): void {
    response.writeHead(200, { ...safetyHeaders, 'content-type': 'text/event-stream' });
    response.write(': here\n\n');
    const stop = host.onEvent((event) => response.write(`data: ${JSON.stringify(event)}\n\n`));
    const heartbeat = setInterval(() => response.write(':\n\n'), heartbeatMs);
    response.once('close', () => {
      clearInterval(heartbeat);
      stop();
    });
  }

  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    checkHost(request.headers, port);
    const { method = '', url = '/' } = request;
    const pathname = url.split('?', 1)[0];
    const isCall = pathname.startsWith('/call/');
    const asked = `${method} ${isCall ? '/call/' : pathname}`;
    if (asked === 'POST /call/' || asked === 'POST /photos' || asked === 'GET /events') {
      checkCaller(request.headers, port, token);
      if (isCall) return answerCall(pathname.slice('/call/'.length), request, response);
      return pathname === '/events' ? giveEvents(response) : addPhoto(request, response);
    }
    if (method !== 'GET' || isCall) {
      throw new AppError('usage', 'METHOD_REFUSED', `${method} is not answered here.`, 'Load the page again.');
    }
    // Browsers ask for it unasked; the page's icon stands in the page.
    if (pathname === '/favicon.ico') return void response.writeHead(204, safetyHeaders).end();
    return giveStatic(pathname, response);
  }

  const server = createServer((request, response) => {
    answer(request, response).catch((error: unknown) => {
      if (!(error instanceof AppError)) options.onDefect(error);
      if (response.headersSent) response.destroy();
      else void sendError(request, response, error);
    });
  });
  // A photo may take a while to come in; its head may not.
  server.requestTimeout = 10 * 60_000;
  server.headersTimeout = 10_000;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port, '127.0.0.1', resolve);
  });
  port = (server.address() as AddressInfo).port;
  return {
    port,
    async close() {
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
    },
  };
}
