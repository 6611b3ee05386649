import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs'; // prettier-ignore
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import type { BenchEvent, BenchVerb, BenchVerbs } from '../../../core/contract/bench';
import { Book } from '../../../core/node/book/book';
import { createBenchHost, type BenchHost } from '../../../core/node/bench/host';
import { WatchLedger, retriesMs, steadyMs, type SeenFile } from '../../../core/node/bench/watch/ledger';
import { BenchWatch } from '../../../core/node/bench/watch/bench-watch';
import { WatchedFolder, type WatchPorts } from '../../../core/node/bench/watch/watched-folder';
import { createDecoder } from '../../../core/node/decode-process';
import { startThreadEngine } from '../../../core/node/engine/thread-engine';
import { measureAsked } from '../../support/bench-asked';

const base = mkdtempSync(path.join(tmpdir(), 'evendial-watch-test-'));
afterAll(() => rmSync(base, { recursive: true, force: true }));
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(base, 'folder-'));
});

const file = (name: string, sizeBytes = 100, modifiedMs = 1000): SeenFile => ({ name, sizeBytes, modifiedMs });
const namesOf = (files: readonly SeenFile[]): string[] => files.map(({ name }) => name);

describe('what is known of a watched folder', () => {
  it('[WF1] a photo is handed out once, when its size and time stand still', () => {
    const ledger = new WatchLedger([]);
    expect(ledger.look([file('a.jpg', 0)], 0)).toEqual([]);
    expect(ledger.look([file('a.jpg', 50)], 1000)).toEqual([]);
    expect(ledger.look([file('a.jpg', 100)], 2000)).toEqual([]);
    expect(ledger.arriving()).toEqual(['a.jpg']);
    expect(namesOf(ledger.look([file('a.jpg', 100)], 2000 + steadyMs))).toEqual(['a.jpg']);
    expect(ledger.look([file('a.jpg', 100)], 9000)).toEqual([]);
    ledger.done(file('a.jpg', 100));
    expect([ledger.look([file('a.jpg', 100)], 99_000), ledger.arriving()]).toEqual([[], []]);
  });

  it('[WF1] an empty file waits; what comes together is in order of time, then of number', () => {
    const ledger = new WatchLedger([]);
    const files = [file('b10.jpg'), file('b9.jpg'), file('c.jpg', 1, 500), file('empty.jpg', 0)];
    ledger.look(files, 0);
    expect(namesOf(ledger.look(files, 1000))).toEqual(['c.jpg', 'b9.jpg', 'b10.jpg']);
  });

  it('[WF2] what lay there before is left alone until it changes, also when it was away; other files are counted', () => {
    const ledger = new WatchLedger([file('old.jpg'), file('notes.txt'), file('raw.cr2'), file('.hidden.jpg')]);
    expect([ledger.before, ledger.others]).toEqual([1, 2]);
    ledger.look([], 0);
    ledger.look([file('old.jpg')], 1000);
    expect(ledger.look([file('old.jpg')], 2000)).toEqual([]);
    ledger.look([file('old.jpg', 101)], 3000);
    expect(namesOf(ledger.look([file('old.jpg', 101)], 4000))).toEqual(['old.jpg']);
  });

  it('[WF1] one that cannot be read is tried again, told after a while, given up at last, and taken when it changes', () => {
    const ledger = new WatchLedger([]);
    const cut = file('cut.jpg');
    ledger.look([cut], 0);
    let nowMs = steadyMs;
    const problem = new Error('cut');
    let tries = 0;
    for (const waitMs of retriesMs) {
      expect(namesOf(ledger.look([cut], nowMs))).toEqual(['cut.jpg']);
      ledger.failed(cut, problem, nowMs);
      tries++;
      expect(ledger.look([cut], nowMs + waitMs - 1)).toEqual([]);
      expect(ledger.notTaken()).toEqual(tries < 4 ? [] : [{ name: 'cut.jpg', error: problem }]);
      expect(ledger.arriving()).toEqual(tries < 4 ? ['cut.jpg'] : []);
      nowMs += waitMs;
    }
    ledger.look([cut], nowMs);
    ledger.failed(cut, problem, nowMs);
    expect(ledger.look([cut], nowMs + 1e9)).toEqual([]);
    ledger.look([file('cut.jpg', 200)], nowMs + 2e9);
    expect(namesOf(ledger.look([file('cut.jpg', 200)], nowMs + 3e9))).toEqual(['cut.jpg']);
    expect(ledger.notTaken()).toEqual([]);
  });

  it('[WF1] one that changes while it is read comes again; one that is taken away is forgotten', () => {
    const ledger = new WatchLedger([]);
    ledger.look([file('a.jpg')], 0);
    const [taken] = ledger.look([file('a.jpg')], 1000);
    ledger.look([file('a.jpg', 200)], 1500);
    ledger.done(taken);
    expect(namesOf(ledger.look([file('a.jpg', 200)], 3000))).toEqual(['a.jpg']);
    ledger.failed(file('a.jpg', 200), new Error('gone'), 3100);
    ledger.look([], 3200);
    expect(ledger.arriving()).toEqual([]);
  });
});

describe('a watched folder', () => {
  let watch: WatchedFolder | null = null;
  let copies: string;
  const laid: string[] = [];
  beforeEach(() => {
    copies = mkdtempSync(path.join(base, 'copies-'));
    laid.length = 0;
  });
  afterEach(() => watch?.close());

  /** A photo counts as whole when it ends with a full stop. */
  const ports: WatchPorts = {
    async keep(name, bytes) {
      const parts: Uint8Array[] = [];
      for await (const part of bytes) parts.push(part);
      const place = path.join(mkdtempSync(path.join(copies, 'own-')), name);
      writeFileSync(place, Buffer.concat(parts));
      return place;
    },
    async forget(place) {
      rmSync(path.dirname(place), { recursive: true });
      return Promise.resolve();
    },
    async decode(place) {
      if (readFileSync(place, 'utf8').endsWith('.')) return Promise.resolve();
      throw new AppError('photo', 'PHOTO_DAMAGED', 'it is cut', 'Wait.');
    },
    async lay(_place, name) {
      laid.push(name);
      return Promise.resolve({ id: name, name, sizeBytes: 1, isSample: false });
    },
    onChange: () => undefined,
    onDefect: (error) => {
      throw error;
    },
  };
  const start = async (): Promise<WatchedFolder> => (watch = await WatchedFolder.start(folder, ports));
  const write = (name: string, text: string): void => writeFileSync(path.join(folder, name), text);
  const untilShown = (shown: object): Promise<void> =>
    expect.poll(() => watch!.shown(), { timeout: 20_000, interval: 50 }).toMatchObject(shown);

  it('[WF1, WF3] lays a burst of fifty whole and in order; the same again is counted, folders and others are passed over', async () => {
    write('before.jpg', 'old.');
    await start();
    mkdirSync(path.join(folder, 'sub.jpg'));
    writeFileSync(path.join(folder, 'sub.jpg', 'inner.jpg'), 'inner.');
    write('notes.txt', 'x');
    const names = Array.from({ length: 50 }, (_, i) => `IMG_${i + 1}.jpg`);
    for (const [i, name] of names.entries()) {
      write(name, `photo ${i}.`);
      utimesSync(path.join(folder, name), 1000 + i, 1000 + i);
    }
    await untilShown({ laid: 50, before: 1, others: 1, repeated: 0, arriving: [] });
    expect(laid).toEqual(names);
    copyFileSync(path.join(folder, 'IMG_7.jpg'), path.join(folder, 'IMG_7 (copy).jpg'));
    await untilShown({ laid: 50, repeated: 1 });
    // A copy of each is kept, and none of the one that was there already.
    expect(readdirSync(copies)).toHaveLength(50);
  });

  it('[WF1] a half-written photo waits for its rest', async () => {
    await start();
    write('slow.jpg', 'half');
    await untilShown({ arriving: ['slow.jpg'], laid: 0 });
    // Looked at, found cut, and looked at again.
    await new Promise((resolve) => setTimeout(resolve, 800));
    expect(watch!.shown()).toMatchObject({ arriving: ['slow.jpg'], laid: 0, notTaken: [] });
    write('slow.jpg', 'half and the rest.');
    await untilShown({ arriving: [], laid: 1 });
    expect(laid).toEqual(['slow.jpg']);
  });

  it('[WF2] a folder that vanishes is said, and taken up again with what came meanwhile and nothing else', async () => {
    write('before.jpg', 'old.');
    await start();
    write('one.jpg', 'one.');
    await untilShown({ laid: 1, gone: null });
    renameSync(folder, `${folder}-away`);
    await untilShown({ gone: 'it is not there' });
    writeFileSync(path.join(`${folder}-away`, 'two.jpg'), 'two.');
    // An empty folder in its place, as a stick's that is pulled out.
    mkdirSync(folder);
    await untilShown({ gone: null });
    rmSync(folder, { recursive: true });
    renameSync(`${folder}-away`, folder);
    await untilShown({ gone: null, laid: 2 });
    expect(laid).toEqual(['one.jpg', 'two.jpg']);
  });

  it('[WF2] a folder that is not there cannot be watched, and the reason is said', async () => {
    const refused = await WatchedFolder.start(path.join(folder, 'none'), {} as never).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(AppError);
    expect(refused).toMatchObject({
      code: 'WATCH_FOLDER_UNUSABLE',
      message: expect.stringMatching(/none.*not there/) as string,
    });
  });

  describe('of several', () => {
    let bench: BenchWatch;
    let layNow: (() => void) | null;
    /** A watch that is just laying a photo, until `layNow`. */
    beforeEach(async () => {
      layNow = null;
      const decode = (place: string, name: string): Promise<void> =>
        name === 'busy.jpg' ? new Promise((resolve) => (layNow = resolve)) : ports.decode(place, name);
      bench = new BenchWatch({ ...ports, decode }, () => true, null);
      await bench.start(folder);
      write('busy.jpg', 'busy.');
      await expect.poll(() => layNow, { timeout: 20_000 }).not.toBeNull();
    });
    afterEach(() => {
      layNow?.();
      return bench.stop();
    });

    it('[WF5] two that are asked for at once: the later one is watched, and the first no more', async () => {
      const [first, later] = ['first', 'later'].map((name) => path.join(folder, name));
      [first, later].forEach((place) => mkdirSync(place));
      const started = Promise.all([bench.start(first), bench.start(later)]);
      // Both may have come to where they wait for the watch before them.
      await new Promise((resolve) => setTimeout(resolve, 100));
      layNow!();
      await started;
      expect(bench.read(0).watch?.folder).toBe('later');
      // It comes before those of the later folder: by the time that these are laid, a watch of the first would have laid it.
      writeFileSync(path.join(first, 'unseen.jpg'), 'unseen.');
      for (const name of ['one.jpg', 'two.jpg']) {
        writeFileSync(path.join(later, name), `${name}.`);
        await expect.poll(() => bench.read(0).photos.at(-1)?.name, { timeout: 20_000 }).toBe(name);
      }
      expect(laid).toEqual(['busy.jpg', 'one.jpg', 'two.jpg']);
      expect(bench.read(0).upTo).toBe(3);
    });

    it('[WF5] a watch is over as soon as it is asked to end, and what it was just laying is shown all the same', async () => {
      const stopped = bench.stop();
      await expect.poll(() => bench.read(0).watch).toBeNull();
      layNow!();
      await stopped;
      expect(bench.read(0)).toMatchObject({ photos: [{ name: 'busy.jpg' }], upTo: 1 });
    });
  });
});

describe('the bench with a watched folder', () => {
  let host: BenchHost;
  const events: BenchEvent[] = [];
  let calls = 0;
  beforeEach(() => {
    host = createBenchHost({
      shell: 'browser',
      version: '0',
      samplesFolder: 'samples',
      book: new Book(path.join(folder, 'book')),
      startEngine: startThreadEngine,
      decoder: createDecoder({}),
    });
    host.onEvent((event) => events.push(event));
  });
  afterEach(() => host.close());
  const ask = async <Verb extends BenchVerb>(verb: Verb, asks: BenchVerbs[Verb]['asks']) =>
    (await host.call(verb, `c${++calls}`, asks)) as BenchVerbs[Verb]['answers'];

  it(
    '[WF1, WF3, WF4] lays real photos only when they are whole; their outline is carried over; a browser cannot choose',
    { timeout: 120_000 },
    async () => {
      await host.watchFolder(folder);
      const bytes = readFileSync('samples/photos/t60-warm-white-bare.jpg');
      writeFileSync(path.join(folder, 'first.jpg'), bytes.subarray(0, 30_000));
      const read = () => ask('watchRead', { after: 0 });
      await expect.poll(async () => (await read()).watch?.arriving, { timeout: 20_000 }).toEqual(['first.jpg']);
      await new Promise((resolve) => setTimeout(resolve, 1000));
      expect((await read()).photos).toEqual([]);
      writeFileSync(path.join(folder, 'first.jpg'), bytes);
      copyFileSync('samples/photos/t60-amber-bare.jpg', path.join(folder, 'second.jpg'));
      await expect.poll(async () => (await read()).photos.length, { timeout: 60_000 }).toBe(2);
      const { watch, photos, upTo } = await read();
      expect(watch).toMatchObject({ folder: path.basename(folder), laid: 2, notTaken: [] });
      expect(JSON.stringify([watch, photos, events])).not.toContain(base);
      expect(await ask('watchRead', { after: upTo })).toMatchObject({ photos: [], upTo: 2 });
      expect(events).toContainEqual({ type: 'watch' });
      const [first, second] = ['first.jpg', 'second.jpg'].map((name) => photos.find((photo) => photo.name === name)!);
      const { room, viewingDistanceMm, reference, ...from } = measureAsked(first.id);
      void [room, viewingDistanceMm, reference];
      const carried = await ask('carryOutline', { from, to: second.id });
      expect(carried).toMatchObject({ by: 'print' });
      // Corners are set where the camera moved by 9 pixels to the right.
      if (carried.by !== null) expect(carried.cornersPx[0][0]).toBeWithin(341, 3);
      const searched = { ...from, window: { ...from.window, cornersPx: null } };
      await expect(ask('carryOutline', { from: searched, to: second.id })).rejects.toMatchObject({
        code: 'CORNERS_MISSING',
      });
      await expect(ask('watchChoose', {})).rejects.toMatchObject({ code: 'WATCH_NO_DIALOG' });
      // What was laid stays when its file goes, and when the watch ends.
      rmSync(path.join(folder, 'first.jpg'));
      await ask('watchStop', {});
      expect((await read()).watch).toBeNull();
      expect(await ask('pixels', { photo: first.id, mostSidePx: 8, region: null })).toMatchObject({ width: 8 });
      await ask('removePhotos', { photos: [first.id] });
      expect((await read()).photos).toEqual([second]);
      await expect(ask('pixels', { photo: first.id, mostSidePx: 8, region: null })).rejects.toMatchObject({
        code: 'PHOTO_NOT_ON_BENCH',
      });
    },
  );
});
