import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type {
  BenchEvent,
  BenchPhoto,
  BenchVerb,
  BenchVerbs,
  LinearPart,
  MeasuredPhoto,
  SavedFile,
} from '../../../core/contract/bench';
import { packValue, unpackValue } from '../../../core/contract/packed';
import { csvText } from '../../../core/node/cli/csv';
import { createBenchHost, type BenchHost } from '../../../core/node/bench/host';
import { Book } from '../../../core/node/book/book';
import { createDecoder } from '../../../core/node/decode-process';
import type { EngineChild } from '../../../core/node/engine/messages';
import { startThreadEngine } from '../../../core/node/engine/thread-engine';
import { measureAsked } from '../../support/bench-asked';

const sample = 't60-warm-white-bare.jpg';
const folder = mkdtempSync(path.join(tmpdir(), 'evendial-host-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let host: BenchHost;
let engines: EngineChild[];
let events: BenchEvent[];
let calls = 0;

/** However slow the machine: an engine whose call was cancelled is waited for. */
const patientMs = 3_600_000;

function startHost(letFinishMs: number): BenchHost {
  const started = createBenchHost({
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
    letFinishMs,
  });
  started.onEvent((event) => events.push(event));
  return started;
}
beforeEach(() => {
  engines = [];
  events = [];
  host = startHost(patientMs);
});
afterEach(() => host.close());

async function ask<Verb extends BenchVerb>(
  verb: Verb,
  asks: BenchVerbs[Verb]['asks'],
  call = `call-${++calls}`,
): Promise<BenchVerbs[Verb]['answers']> {
  const answer = await host.call(verb, call, asks);
  // As it comes out at the page.
  return unpackValue(packValue(answer)) as BenchVerbs[Verb]['answers'];
}
const addSample = async (name = sample): Promise<BenchPhoto> => (await ask('addSamples', { names: [name] }))[0];

/** Resolves when the engine has come to a step of a call. */
const working = (call: string, step: 'decode' | 'measure'): Promise<void> =>
  new Promise((resolve) => {
    const stop = host.onEvent((event) => {
      if (event.type !== 'progress' || event.call !== call || event.progress.step !== step) return;
      stop();
      resolve();
    });
  });

describe('the host of the bench', () => {
  it('[BE4] offers the samples, lays photos on the bench, tells no path, and takes them off', async () => {
    const hello = await ask('hello', {});
    expect(hello).toMatchObject({ shell: 'browser', version: '0', photos: [] });
    const names = hello.samples.map(({ name }) => name);
    expect(names[0]).toBe('t60-filament.jpg');
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((name) => /linear|both/.test(name))).toEqual([]);
    expect(hello.samples[0]).toEqual({
      name: 't60-filament.jpg',
      title: 'Filament lamps, before the swap',
      light: 'filament',
      room: 'dark',
      sizeMm: { widthMm: 92, heightMm: 18 },
    });
    expect(hello.samples.find(({ name }) => name === 'm4-amber.jpg')?.shape).toMatchObject({ kind: 'ellipse' });
    const photo = await addSample();
    expect(photo).toMatchObject({ name: sample, isSample: true });
    expect((await ask('hello', {})).photos).toEqual([photo]);
    expect(JSON.stringify(await ask('hello', {}))).not.toContain(path.resolve('samples'));
    await ask('removePhotos', { photos: [photo.id] });
    await expect(ask('find', { photo: photo.id })).rejects.toMatchObject({ code: 'PHOTO_NOT_ON_BENCH' });
    await expect(ask('addSamples', { names: ['../package.json'] })).rejects.toMatchObject({ code: 'SAMPLE_UNKNOWN' });
  });

  it('[BE4] refuses what can be no photo, each by itself', async () => {
    const empty = path.join(folder, 'empty.jpg');
    writeFileSync(empty, '');
    const huge = path.join(folder, 'huge.jpg');
    writeFileSync(huge, '');
    truncateSync(huge, 300 * 2 ** 20);
    await expect(host.addPhoto(empty)).rejects.toMatchObject({ kind: 'photo', code: 'PHOTO_EMPTY' });
    await expect(host.addPhoto(huge)).rejects.toMatchObject({ kind: 'photo', code: 'PHOTO_TOO_LARGE' });
    await expect(host.addPhoto(folder)).rejects.toMatchObject({ kind: 'photo', code: 'PHOTO_UNREADABLE' });
    await expect(host.addPhoto(path.join(folder, 'no.jpg'))).rejects.toMatchObject({ code: 'PHOTO_MISSING' });
    const text = path.join(folder, 'notes.jpg');
    writeFileSync(text, 'these are notes and no picture at all');
    const { id } = await host.addPhoto(text);
    await expect(ask('find', { photo: id })).rejects.toMatchObject({ kind: 'photo', code: 'PHOTO_FORMAT_UNSUPPORTED' });
  });

  it('[BE3] finds, measures and exports with the figures of the command line, to the last byte', async () => {
    const { id } = await addSample();
    const found = await ask('find', { photo: id });
    expect(found).toMatchObject({ file: sample, widthPx: 1600 });
    const measured: MeasuredPhoto = await ask('measure', measureAsked(id));
    expect(measured.maps.glowLuminance.values).toBeInstanceOf(Float32Array);
    expect([...measured.maps.glowLuminance.values].some(Number.isNaN)).toBe(true);
    const [file]: readonly SavedFile[] = await ask('exportReading', { measure: measureAsked(id), what: 'json' });
    expect(file).toMatchObject({ name: 't60-warm-white-bare.readings.json', mediaType: 'application/json' });
    const words = ['measure', sample, '--corners', '332,217 1268,222 1267,406 330,399', '--size', '46x9', '--outline'];
    words.push('rectangle', '--print', 'dark', '--light', 'warm-white', '--room', 'dark');
    const line = execFileSync(process.execPath, [path.resolve('dist/evendial.cjs'), ...words, '--json'], {
      cwd: 'samples/photos',
      env: { ...process.env, INIT_CWD: '' },
      encoding: 'utf8',
    });
    const untimed = (text: string): string => text.replace(/"timingMs": \{[^}]*\}/, '');
    const textOf = (saved: SavedFile): string => Buffer.from(saved.bytes).toString('utf8');
    expect(untimed(textOf(file))).toBe(untimed(line));
    const [table] = await ask('exportReading', { measure: measureAsked(id), what: 'csv' });
    const { readings } = JSON.parse(line) as { readings: MeasuredPhoto['reading'][] };
    expect(textOf(table)).toBe(csvText(readings.map((entry) => ({ role: 'trial', entry }))));
    const pictures = await ask('exportReading', { measure: measureAsked(id), what: 'pictures' });
    expect(pictures.map(({ name }) => name)).toContain('t60-warm-white-bare.luminance.png');
    for (const { bytes } of pictures) expect([...bytes.subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
    // Four measurements, on a machine that may be doing much else.
  }, 180_000);

  it('[BE2] gives a photo and its parts for the screen, no larger than asked and where they were asked', async () => {
    const { id } = await addSample();
    const whole = await ask('pixels', { photo: id, mostSidePx: 700, region: null });
    expect(whole).toMatchObject({ width: 700, photoWidthPx: 1600 });
    expect(whole.rgba).toBeInstanceOf(Uint8ClampedArray);
    expect(whole.rgba.length).toBe(700 * whole.height * 4);
    const region = { column: 600, row: 250, width: 301, height: 100 };
    const part = await ask('pixels', { photo: id, mostSidePx: 4000, region });
    expect([part.width, part.height]).toEqual([301, 100]);
    const light: LinearPart = await ask('linear', { photo: id, region, mostPixels: 8000 });
    expect(light).toMatchObject({
      reducedBy: 2,
      width: 150,
      height: 50,
      region: { ...region, width: 300, height: 100 },
    });
    // The same place, by both ways: the mean light of 2 x 2 pixels, and their codes.
    const at = 4 * (40 * 301 + 80);
    const codes = [0, 4, 4 * 301, 4 * 301 + 4].map((step) => part.rgba[at + step] / 255);
    const linear = codes.map((code) => (code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4));
    // Codes on the screen are rounded: half a code is about 0.004 of light here.
    expect(light.rgb[3 * (20 * 150 + 40)]).toBeCloseTo(
      linear.reduce((sum, one) => sum + one / 4, 0),
      2,
    );
    const beside = { ...region, column: 5000 };
    await expect(ask('pixels', { photo: id, mostSidePx: 10, region: beside })).rejects.toMatchObject({
      code: 'REGION_OUTSIDE',
    });
  });

  it('[BE15] compares photos as they were last measured, names no photo by its file, and refuses one without a reading', async () => {
    const [one, other] = [await addSample(), await addSample('t60-warm-white-diffuser.jpg')];
    await ask('measure', measureAsked(one.id));
    const both = { photos: [one.id, other.id], reference: null };
    await expect(ask('compare', both)).rejects.toMatchObject({ kind: 'usage', code: 'PHOTO_NOT_MEASURED' });
    await ask('measure', measureAsked(other.id));
    const { ranking, pairs } = await ask('compare', both);
    // 27 and 61 on the command line: the diffuser is better, and that can be told.
    expect(ranking.evenness).toEqual([[other.id], [one.id]]);
    expect(pairs).toHaveLength(1);
    expect(pairs[0]).toMatchObject({ a: one.id, b: other.id });
    expect(pairs[0].evenness.difference.value).toBeWithin(34, 3);
    const against = await ask('compare', { ...both, reference: one.id });
    expect(against.ranking.evenness).toEqual([[other.id]]);
  });

  it('[BE4] a helper photo is one that lies on the bench', async () => {
    const { id } = await addSample();
    const helpers = { lampOff: null, flatField: null, printPhoto: 'gone' };
    await expect(ask('measure', { ...measureAsked(id), helpers })).rejects.toMatchObject({
      code: 'PHOTO_NOT_ON_BENCH',
    });
  });

  it('[BE6] a cancelled call rejects at once; the others go on', async () => {
    const [one, other] = [await addSample(), await addSample('m4-filament.jpg')];
    const busy = working('slow', 'measure');
    const slow = expect(ask('measure', measureAsked(one.id), 'slow')).rejects.toMatchObject({ kind: 'cancelled' });
    const beside = ask('find', { photo: other.id });
    await busy;
    const started = Date.now();
    await ask('cancel', { call: 'slow' });
    await slow;
    expect(Date.now() - started).toBeLessThan(1000);
    expect(await beside).toMatchObject({ file: 'm4-filament.jpg' });
    expect(events.some(({ type }) => type === 'engine-stopped')).toBe(false);
    expect(await ask('pixels', { photo: one.id, mostSidePx: 50, region: null })).toMatchObject({ width: 50 });
  });

  it('[BE6] the engine of a cancelled call finishes unheard and takes the next', async () => {
    const { id } = await addSample();
    const busy = working('dropped', 'measure');
    const dropped = expect(ask('measure', measureAsked(id), 'dropped')).rejects.toMatchObject({ kind: 'cancelled' });
    await busy;
    await ask('cancel', { call: 'dropped' });
    await dropped;
    // One starts an engine, the other waits for the one that is warm.
    await Promise.all([1, 2].map(() => ask('pixels', { photo: id, mostSidePx: 20, region: null })));
    expect(engines.length).toBe(2);
  });

  it('[BE6] the engine of a cancelled call that does not finish soon is ended', async () => {
    await host.close();
    // Sooner than any photo is measured.
    host = startHost(0);
    const { id } = await addSample();
    const busy = working('dropped', 'measure');
    const dropped = expect(ask('measure', measureAsked(id), 'dropped')).rejects.toMatchObject({ kind: 'cancelled' });
    await busy;
    const end = vi.spyOn(engines[0], 'end');
    await ask('cancel', { call: 'dropped' });
    await dropped;
    await expect.poll(() => end.mock.calls.length, { timeout: 60_000 }).toBe(1);
    expect(await ask('pixels', { photo: id, mostSidePx: 20, region: null })).toMatchObject({ width: 20 });
    expect(engines.length).toBe(2);
  });

  it('[BE6] an engine that dies takes its own call along, is told of, and starts again', async () => {
    const { id } = await addSample();
    const busy = working('doomed', 'decode');
    const doomed = expect(ask('measure', measureAsked(id), 'doomed')).rejects.toMatchObject({ name: 'EngineStopped' });
    await busy;
    // What it cannot read ends its thread.
    engines[0].send(null as never);
    await doomed;
    expect(events.filter(({ type }) => type === 'engine-stopped')).toHaveLength(1);
    const again = await ask('measure', measureAsked(id));
    expect(again.reading.evenness.score.value).toBeGreaterThan(0);
    expect(engines.length).toBe(2);
  });

  it('[BE6] a photo that is refused does not cost the engine', async () => {
    const { id } = await addSample();
    const crossed = measureAsked(id, {
      cornersPx: [
        [332, 217],
        [1267, 406],
        [1268, 222],
        [330, 399],
      ],
    });
    await expect(ask('measure', crossed)).rejects.toMatchObject({ kind: 'outline' });
    await ask('pixels', { photo: id, mostSidePx: 50, region: null });
    expect(engines.length).toBe(1);
  });

  it('[BE6] waits its turn when both engines are busy, and can be cancelled while it waits', async () => {
    const { id } = await addSample();
    const first = [1, 2].map(() => ask('pixels', { photo: id, mostSidePx: 400, region: null }));
    const third = expect(ask('find', { photo: id }, 'third')).rejects.toMatchObject({ kind: 'cancelled' });
    const fourth = ask('pixels', { photo: id, mostSidePx: 30, region: null });
    await ask('cancel', { call: 'third' });
    await third;
    expect((await Promise.all([...first, fourth])).map(({ width }) => width)).toEqual([400, 400, 30]);
    expect(engines.length).toBe(2);
  });
});
