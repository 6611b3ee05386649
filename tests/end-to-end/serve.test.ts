import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { connect } from 'node:net';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { AppError } from '../../core/base/errors';
import type { BenchError, BenchEvent, BenchPhoto, Hello, MeasuredPhoto } from '../../core/contract/bench';
import { unpackValue } from '../../core/contract/packed';
import { archiveUpload } from '../../core/node/bench/archives';
import { createBenchHost, type BenchHost } from '../../core/node/bench/host';
import { Book } from '../../core/node/book/book';
import { createDecoder } from '../../core/node/decode-process';
import type { EngineChild } from '../../core/node/engine/messages';
import { startThreadEngine } from '../../core/node/engine/thread-engine';
import { startBenchServer, type BenchServer } from '../../core/node/serve/bench-server';
import { photoUpload, Uploads } from '../../core/node/bench/uploads';
import { measureAsked } from '../support/bench-asked';

const token = 'a-token-for-tests';
const folder = mkdtempSync(path.join(tmpdir(), 'evendial-serve-test-'));
const page = path.join(folder, 'page');
// What is left behind shows in a folder that nobody else uses.
process.env['TMPDIR'] = folder;

let server: BenchServer;
let host: BenchHost;
let uploads: Uploads;
const engines: EngineChild[] = [];
const defects: unknown[] = [];

beforeAll(async () => {
  mkdirSync(path.join(page, 'fonts'), { recursive: true });
  writeFileSync(path.join(page, 'index.html'), '<!doctype html><title>bench</title>');
  writeFileSync(path.join(page, 'main.js'), 'export {};');
  writeFileSync(path.join(page, 'main.js.map'), '{}');
  writeFileSync(path.join(folder, 'secret.js'), 'secret');
  // As small as it may be: the test shows where the limit is, not how much it lets through.
  uploads = new Uploads(photoUpload(3 * 2 ** 20));
  host = createBenchHost({
    shell: 'browser',
    version: '0',
    samplesFolder: 'samples',
    book: new Book(path.join(folder, 'book')),
    startEngine: () => {
      const engine = startThreadEngine();
      engines.push(engine);
      return engine;
    },
    decoder: createDecoder({}),
    onRemoved: (place) => void uploads.forget(place),
  });
  const onDefect = (error: unknown): number => defects.push(error);
  server = await startBenchServer({ host, uploads, pageFolder: page, token, port: 0, onDefect });
});

afterAll(async () => {
  await server.close();
  await host.close();
  await uploads.close();
  expect(readdirSync(folder).filter((name) => name.startsWith('evendial-'))).toEqual([]);
  rmSync(folder, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly body: Buffer;
}

/** By hand, so that any header can be wrong. */
function send(
  method: string,
  place: string,
  headers: Record<string, string> = {},
  body: Uint8Array | string = '',
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const request = httpRequest({ host: '127.0.0.1', port: server.port, method, path: place, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(parts) }),
      );
    });
    request.on('error', reject);
    request.end(body);
  });
}

const own = (): Record<string, string> => ({
  'x-evendial-token': token,
  origin: `http://127.0.0.1:${server.port}`,
  'sec-fetch-site': 'same-origin',
});
let calls = 0;
const callBody = (asks: unknown, call = `call-${++calls}`): string => JSON.stringify({ call, asks });
const ask = (verb: string, asks: unknown, headers: Record<string, string> = own(), call?: string): Promise<Answer> =>
  send('POST', `/call/${verb}`, headers, callBody(asks, call));
const answerOf = <T>({ status, body }: Answer): T => {
  expect([status, status === 200 ? '' : body.toString()]).toEqual([200, '']);
  return unpackValue(Uint8Array.from(body)) as T;
};
const errorOf = ({ body }: Answer): BenchError => (JSON.parse(body.toString()) as { error: BenchError }).error;
const upload = (name: string, bytes: Uint8Array): Promise<Answer> =>
  send('POST', '/photos', { ...own(), 'x-evendial-name': encodeURIComponent(name) }, bytes);

/** Says how much will come, and sends none of it. */
function claim(name: string, bytes: number): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const headers = { ...own(), 'x-evendial-name': encodeURIComponent(name), 'content-length': String(bytes) };
    const request = httpRequest({ host: '127.0.0.1', port: server.port, method: 'POST', path: '/photos', headers });
    request.on('response', (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () => {
        request.destroy();
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(parts) });
      });
    });
    request.on('error', reject);
    request.flushHeaders();
  });
}
async function* one(): AsyncGenerator<Uint8Array> {
  yield new Uint8Array([1]);
}

describe('evendial serve: who is let in', () => {
  it('[BE9] the page with its token, and nobody else', async () => {
    expect(answerOf<Hello>(await ask('hello', {}))).toMatchObject({ shell: 'browser' });
    for (const wrong of ['', 'a-token-for-testz', `${token} `.repeat(2)]) {
      const refused = await ask('hello', {}, { ...own(), 'x-evendial-token': wrong });
      expect([refused.status, errorOf(refused).code]).toEqual([401, 'TOKEN_WRONG']);
    }
    const without = Object.fromEntries(Object.entries(own()).filter(([name]) => name !== 'x-evendial-token'));
    expect((await ask('hello', {}, without)).status).toBe(401);
    expect((await send('GET', '/events')).status).toBe(401);
    expect((await send('POST', '/photos', { 'x-evendial-name': 'a.jpg' }, 'x')).status).toBe(401);
  });

  it.each([
    'http://example.test',
    'null',
    'http://127.0.0.1',
    'https://127.0.0.1:1',
    'http://127.0.0.1:1.example.test',
  ])('[BE9] no page of the origin %s, even with the token', async (origin) => {
    const refused = await ask('hello', {}, { ...own(), origin });
    expect([refused.status, errorOf(refused).code]).toEqual([403, 'ORIGIN_REFUSED']);
  });

  it.each(['cross-site', 'same-site', 'none'])('[BE9] no call that the browser calls %s', async (site) => {
    expect((await ask('hello', {}, { ...own(), 'sec-fetch-site': site })).status).toBe(403);
  });

  it.each(['example.test', 'example.test:80', '127.0.0.1', '127.0.0.1:1', '0.0.0.0', '[::1]'])(
    '[BE9] nothing under the name %s, not even the page',
    async (name) => {
      for (const [method, place] of [
        ['GET', '/'],
        ['POST', '/call/hello'],
      ]) {
        const refused = await send(method, place, { ...own(), host: name }, method === 'GET' ? '' : callBody({}));
        expect([refused.status, errorOf(refused).code]).toEqual([421, 'HOST_REFUSED']);
      }
    },
  );

  it('[BE9] another page gets no leave to ask with its own headers', async () => {
    const asked = { origin: 'http://example.test', 'access-control-request-method': 'POST' };
    const { status, headers } = await send('OPTIONS', '/call/hello', asked);
    expect(status).toBe(405);
    expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('evendial serve: the page', () => {
  it('[BE8] is given with a policy that lets it load its own files only', async () => {
    const { status, headers, body } = await send('GET', '/');
    expect([status, headers['content-type'], body.toString()]).toEqual([
      200,
      'text/html; charset=utf-8',
      '<!doctype html><title>bench</title>',
    ]);
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect((await send('GET', '/main.js?x=1')).headers['content-type']).toBe('text/javascript; charset=utf-8');
  });

  it.each([
    '/../secret.js',
    '/fonts/../../secret.js',
    '/%2e%2e/secret.js',
    '/..%2fsecret.js',
    '/..\\secret.js',
    '/%5c..%5csecret.js',
    '//secret.js',
    '/./main.js',
    '/.git/config.js',
    '/main.js%00.js',
    '/main.js.map',
    '/fonts',
    '/nothing.js',
    'http://127.0.0.1/../secret.js',
  ])('[BE8] has no file %s', async (place) => {
    const { status, body } = await send('GET', place);
    expect([status, body.toString().includes('secret')]).toEqual([404, false]);
  });

  it('[BE8] answers to no other method', async () => {
    for (const method of ['PUT', 'DELETE', 'POST']) expect((await send(method, '/main.js')).status).toBe(405);
    expect((await send('GET', '/call/hello', own())).status).toBe(405);
  });
});

describe('evendial serve: calls', () => {
  it('[BE10] lays a photo on the bench under its own name, measures it, and removes its copy', async () => {
    const name = 'try 3 – 灯.jpg';
    const photo = answerOf<BenchPhoto>(await upload(name, await readFile('samples/photos/t60-warm-white-bare.jpg')));
    expect(photo).toMatchObject({ name, isSample: false });
    const copies = (): string[] =>
      readdirSync(folder)
        .filter((one) => one.startsWith('evendial-bench-'))
        .flatMap((one) => readdirSync(path.join(folder, one)));
    expect(copies()).toHaveLength(1);
    const { reading } = answerOf<MeasuredPhoto>(await ask('measure', measureAsked(photo.id)));
    expect(reading.photos[0].file).toBe(name);
    expect(reading.evenness.score.value).toBeGreaterThan(0);
    answerOf(await ask('removePhotos', { photos: [photo.id] }));
    await expect.poll(copies).toEqual([]);
  });

  it.each([
    ['a path instead of a name', '../../../etc/cron.d/x.jpg', 'photo'],
    ['two dots', '..', 'photo'],
    ['a name of 2000 letters', `${'é'.repeat(2000)}.jpg`, 'photo'],
  ])('[BE7] keeps %s inside its own folder', async (_, name) => {
    const refused = await upload(name, Buffer.from('no picture, only words of a text file'));
    const { id } = answerOf<BenchPhoto>(refused);
    const read = await ask('find', { photo: id });
    expect([read.status, errorOf(read).code]).toEqual([422, 'PHOTO_FORMAT_UNSUPPORTED']);
    expect(errorOf(read).message).not.toContain('/');
    answerOf(await ask('removePhotos', { photos: [id] }));
  });

  it('[BE7, BE10] refuses an empty photo, one without a name, and one that is too large, and keeps none', async () => {
    expect(errorOf(await upload('empty.jpg', new Uint8Array(0))).code).toBe('PHOTO_EMPTY');
    for (const name of ['', '%', '%E0%A4%A']) {
      const { body } = await send('POST', '/photos', { ...own(), 'x-evendial-name': name }, 'x');
      expect((JSON.parse(body.toString()) as { error: BenchError }).error.code).toBe('NAME_MISSING');
    }
    const large = await upload('large.jpg', new Uint8Array(3 * 2 ** 20 + 1));
    expect([large.status, errorOf(large).code]).toEqual([413, 'PHOTO_TOO_LARGE']);
    const claimed = await claim('huge.jpg', 2 ** 40);
    expect([claimed.status, errorOf(claimed).code]).toEqual([413, 'PHOTO_TOO_LARGE']);
  });

  it('[BE7] refuses a unit that is too large by what it is: it is no photo that could be cut', async () => {
    const claimed = await claim('many photos.evendial', 2 ** 31 + 1);
    expect([claimed.status, errorOf(claimed).code]).toEqual([413, 'ARCHIVE_TOO_LARGE']);
    expect(errorOf(claimed).remedy).toMatch(/command line/);
    expect(JSON.stringify(errorOf(claimed))).not.toMatch(/photo to the part/);
  });

  it.each(['photo.jpg', 'unit.evendial'])(
    '[BE4, BE7] where there is no room for %s, says so without the place of the folder',
    async (name) => {
      const full = new Uploads(photoUpload(100));
      process.env['TMPDIR'] = path.join(folder, 'not there');
      try {
        const kind = name.endsWith('.jpg') ? undefined : archiveUpload;
        const refused = (await full.keep(name, one(), kind).catch((error: unknown) => error)) as AppError;
        expect(refused).toMatchObject({ code: 'PHOTO_NOT_KEPT' });
        expect(refused.remedy).toMatch(kind ? /and drop the unit once more/ : /and add the photo again/);
        expect(`${refused.message} ${refused.remedy}`).not.toContain(folder);
        process.env['TMPDIR'] = folder;
        // With room it goes on.
        expect(path.basename(await full.keep(name, one(), kind))).toBe(name);
      } finally {
        process.env['TMPDIR'] = folder;
        await full.close();
      }
    },
  );

  it('[BE10] refuses what is no call', async () => {
    const cases: [string, string, number, string][] = [
      ['nothing', callBody({}), 404, 'VERB_UNKNOWN'],
      ['__proto__', callBody({}), 404, 'VERB_UNKNOWN'],
      ['hello', 'no JSON', 422, 'ASKED_WRONGLY'],
      ['hello', '[]', 422, 'ASKED_WRONGLY'],
      ['hello', JSON.stringify({ call: 5, asks: {} }), 422, 'ASKED_WRONGLY'],
      ['hello', JSON.stringify({ call: 'x'.repeat(65), asks: {} }), 422, 'ASKED_WRONGLY'],
      ['measure', callBody({ photo: 'p' }), 422, 'ASKED_WRONGLY'],
      ['find', callBody({ photo: '/etc/passwd' }), 422, 'PHOTO_NOT_ON_BENCH'],
      ['hello', `"${'x'.repeat(4 * 2 ** 20)}"`, 413, 'CALL_TOO_LARGE'],
    ];
    for (const [verb, body, status, code] of cases) {
      const refused = await send('POST', `/call/${verb}`, own(), body);
      expect([verb, refused.status, errorOf(refused).code]).toEqual([verb, status, code]);
    }
  });

  it('[BE10] a page that goes away has its call stopped', async () => {
    const [photo] = answerOf<BenchPhoto[]>(await ask('addSamples', { names: ['t60-filament.jpg'] }));
    const started = new Promise<void>((resolve) => {
      const stop = host.onEvent((event) => {
        if (event.type !== 'progress' || event.call !== 'left') return;
        stop();
        resolve();
      });
    });
    const body = callBody(measureAsked(photo.id), 'left');
    const socket = connect(server.port, '127.0.0.1');
    const head = Object.entries({ ...own(), host: `127.0.0.1:${server.port}`, 'content-length': String(body.length) });
    socket.write(`POST /call/measure HTTP/1.1\r\n${head.map((line) => line.join(': ')).join('\r\n')}\r\n\r\n${body}`);
    await started;
    socket.destroy();
    // The name is free again as soon as the call is over; until then it is refused.
    const isOver = async (): Promise<boolean> =>
      (await ask('pixels', { photo: photo.id, mostSidePx: 8, region: null }, own(), 'left')).status === 200;
    await expect.poll(isOver, { timeout: 20_000 }).toBe(true);
    expect(engines.length).toBeGreaterThan(1);
  });

  it('[BE10] tells progress and the end of the engine on the stream of events, and goes on', async () => {
    const events: BenchEvent[] = [];
    const stream = await fetch(`http://127.0.0.1:${server.port}/events`, { headers: { 'x-evendial-token': token } });
    expect(stream.headers.get('content-type')).toBe('text/event-stream');
    const reader = stream.body!.pipeThrough(new TextDecoderStream()).getReader();
    const reading = (async () => {
      for (let text = ''; ;) {
        const { done, value } = await reader.read();
        if (done) return;
        const blocks = (text + value).split('\n\n');
        text = blocks.pop() ?? '';
        for (const block of blocks) {
          if (block.startsWith('data: ')) events.push(JSON.parse(block.slice(6)) as BenchEvent);
        }
      }
    })();
    // One that no engine has decoded yet: while it waits for its photo, an engine hears what it is told.
    const [photo] = answerOf<BenchPhoto[]>(await ask('addSamples', { names: ['t60-tilted.jpg'] }));
    const doomed = ask('measure', measureAsked(photo.id), own(), 'doomed');
    await expect.poll(() => events.some((one) => one.type === 'progress' && one.call === 'doomed')).toBe(true);
    for (const engine of engines) engine.send(null as never);
    const { status, body } = await doomed;
    expect([status, (JSON.parse(body.toString()) as { error: BenchError }).error.code]).toEqual([
      500,
      'ENGINE_STOPPED',
    ]);
    await expect.poll(() => events.some(({ type }) => type === 'engine-stopped')).toBe(true);
    answerOf(await ask('find', { photo: photo.id }));
    await reader.cancel();
    await reading;
    expect(defects.map((error) => (error as Error).name)).toEqual(['EngineStopped']);
  });
});
