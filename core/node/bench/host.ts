import path from 'node:path';
import { AppError } from '../../base/errors';
import type { BenchEvent, BenchPhoto, BenchVerb, BenchVerbs, Hello, MeasureAsked } from '../../contract/bench';
import type { AddedArchive } from '../../contract/book-verbs';
import type { MappedWindow, MeasuredWindow } from '../../contract/measure';
import type { Book } from '../book/book';
import { Presence } from '../book/presence';
import type { WatchShown } from '../../contract/watch';
import { defaultPhotoLimits } from '../decode/photo-limits';
import type { PhotoDecoder } from '../decode-process';
import type { EngineChild, EngineTasks } from '../engine/messages';
import { onlyReading } from '../engine/only-reading';
import { isVerb, readAsks } from './asks';
import { Archives, isArchive, mostArchiveBytes } from './archives';
import { createBookAnswers } from './book-answers';
import { Calls, cancelled, type CallRun } from './calls';
import { createEnginePool } from './engine-pool';
import { carryRequestOf, requestOf, requestOfReference, requestOfSample } from './measure-asked';
import { MeasuredPhotos } from './measured-photos';
import { PhotoRegistry, photoRefOf } from './photo-registry';
import { giveSampleUnits } from './sample-units';
import { readSamples, sampleNamed } from './samples';
import { photoUpload, Uploads } from './uploads';
import { BenchWatch } from './watch/bench-watch';

export interface BenchHostOptions {
  readonly shell: Hello['shell'];
  readonly version: string;
  /** samples/ of the program. */
  readonly samplesFolder: string;
  readonly book: Book;
  readonly startEngine: () => EngineChild;
  /** Milliseconds that an engine may go on with a call that was cancelled, before it is ended; default: 5000. */
  readonly letFinishMs?: number;
  /** Closed with the host. */
  readonly decoder: PhotoDecoder;
  /** Told when a photo has been taken off the bench. */
  readonly onRemoved?: (path: string) => void;
  /** Lets the user choose a folder; left out: this shell cannot. */
  readonly chooseFolder?: () => Promise<string | null>;
  /** Told of a defect that no call waits for. */
  readonly onDefect?: (error: unknown) => void;
}

/** What both shells offer their page. */
export interface BenchHost {
  /**
   * @param call   the page's name for this call; `cancel` and progress name it
   * @param asks   as it came from the page, unchecked
   * @throws AppError, EngineStopped, or a defect: `benchErrorOf` has words for each
   */
  call(verb: string, call: string, asks: unknown): Promise<BenchVerbs[BenchVerb]['answers']>;
  /** Lays a file on the bench. @param name  what the user calls it, when it is not the file's own name */
  addPhoto(path: string, name?: string): Promise<BenchPhoto>;
  /** Takes a file of the user: a photo is laid on the bench, a unit in one file waits for `unitImport`. */
  addFile(path: string, name?: string): Promise<BenchPhoto | AddedArchive>;
  /** The program was asked to open a unit in one file: it waits for `unitImport`, and the page is told. */
  openArchive(path: string): void;
  /** Lays on the bench what arrives in a folder from now on. @throws AppError WATCH_FOLDER_UNUSABLE */
  watchFolder(folder: string): Promise<WatchShown>;
  /**
   * Has an engine measure a sample, so that the user's first photo does not wait for one to start and to find its pace: a
   * second or two.
   */
  warmUp(): Promise<void>;
  /** @returns a function that ends the listening */
  onEvent(listener: (event: BenchEvent) => void): () => void;
  close(): Promise<void>;
}

type Answering = {
  readonly [Verb in BenchVerb]: (asks: BenchVerbs[Verb]['asks'], run: CallRun) => Promise<BenchVerbs[Verb]['answers']>;
};

/**
 * The host of the verbs: knows the photos, checks what it is asked, and has engines do the work.
 *
 * @rule BE4, BE6
 */
export function createBenchHost(options: BenchHostOptions): BenchHost {
  const photos = new PhotoRegistry(defaultPhotoLimits.fileBytes);
  const measuredPhotos = new MeasuredPhotos(options.book.now);
  const onDefect = options.onDefect ?? (() => undefined);
  const pool = createEnginePool({ start: options.startEngine, onDefect, letFinishMs: options.letFinishMs });
  const closing = new AbortController();
  const listeners = new Set<(event: BenchEvent) => void>();
  const samples = readSamples(options.samplesFolder);
  // Asked for, and its failure told, when it is used.
  samples.catch(() => undefined);
  const tell = (event: BenchEvent): void => listeners.forEach((listener) => listener(event));

  const copies = new Uploads(photoUpload(defaultPhotoLimits.fileBytes));
  const arrivedPhoto = {
    ...photoUpload(defaultPhotoLimits.fileBytes),
    again: 'copy the photo into the watched folder again',
  };
  const watch = new BenchWatch(
    {
      keep: (name, bytes) => copies.keep(name, bytes, arrivedPhoto),
      forget: (place) => copies.forget(place),
      async decode(place, name) {
        const asks = { photo: photoRefOf({ name, path: place, stated: {} }), mostSidePx: 64, region: null };
        const run = { decoder: options.decoder, signal: closing.signal, onProgress: () => undefined };
        await pool.run('pixels', asks, run);
      },
      lay: (place, name) => photos.add(place, { name, isSample: false }),
      onChange: () => tell({ type: 'watch' }),
      onDefect,
    },
    (photo) => photos.has(photo),
    options.chooseFolder ?? null,
  );
  const calls = new Calls(pool, options.decoder, tell);
  const archives = new Archives();
  const presence = new Presence(options.book);
  const samplesGiven = presence
    .readOnly()
    .then((why) => (why === null ? giveSampleUnits(options.book, options.samplesFolder, closing.signal) : undefined))
    .catch((error: unknown) => {
      // A book that cannot be used is told of when it is asked for; a samples' archive that is not whole is our own defect.
      const isTold = error instanceof AppError && error.kind === 'book';
      if (!closing.signal.aborted && !isTold) onDefect(error);
    });
  const refOf = (id: string): EngineTasks['pixels']['asks']['photo'] => photoRefOf(photos.find(id));

  const measured = async (asks: MeasureAsked, run: CallRun): Promise<MeasuredWindow & MappedWindow> =>
    onlyReading(
      await run.engine(
        'measure',
        requestOf(asks, (id) => photos.find(id)),
      ),
    );

  const addPhoto = (place: string, name = path.basename(place)): Promise<BenchPhoto> =>
    photos.add(place, { name, isSample: false });

  const answers: Answering = {
    ...createBookAnswers({
      book: options.book,
      photos,
      measured: measuredPhotos,
      measure: async (asks, run) => measuredPhotos.keep(asks, await measured(asks, run)),
      measureReference: async (asks, run) =>
        onlyReading(
          await run.engine(
            'measure',
            requestOfReference(asks, (id) => photos.find(id)),
          ),
          'reference',
        ),
      version: options.version,
      archives,
      presence,
      samplesGiven,
      onArchiveDone: (place) => options.onRemoved?.(place),
    }),
    async hello() {
      const offered = (await samples).map((sample) => sample.offered);
      const { shell, version } = options;
      const { fileBytes: mostPhotoBytes } = defaultPhotoLimits;
      return {
        version,
        shell,
        photos: photos.list(),
        samples: offered,
        mostPhotoBytes,
        mostArchiveBytes,
        archives: archives.list(),
      };
    },
    async addSamples({ names }) {
      const known = await samples;
      const wanted = names.map((name) => sampleNamed(known, name));
      const added: BenchPhoto[] = [];
      for (const sample of wanted) added.push(await photos.add(sample.path, { isSample: true }));
      return added;
    },
    async removePhotos({ photos: ids }) {
      for (const id of ids) {
        const removed = photos.remove(id);
        measuredPhotos.forget(id);
        if (!removed) continue;
        await copies.forget(removed.path);
        options.onRemoved?.(removed.path);
      }
      return null;
    },
    async find({ photo }, run) {
      const [found] = await run.engine('find', { photos: [refOf(photo)] });
      if ('error' in found) throw new AppError('photo', found.error.code, found.error.message, found.error.remedy);
      return found;
    },
    async measure(asks, run) {
      const entry = await measured(asks, run);
      measuredPhotos.keep(asks, entry);
      return { reading: entry.reading, maps: entry.maps };
    },
    async pixels({ photo, mostSidePx, region }, run) {
      return run.engine('pixels', { photo: refOf(photo), mostSidePx, region });
    },
    async linear({ photo, region, mostPixels }, run) {
      return run.engine('linear', { photo: refOf(photo), region, mostPixels });
    },
    async exportReading({ measure, what }, run) {
      return run.engine('files', { request: requestOf(measure, (id) => photos.find(id)), what });
    },
    async printShade({ measure, ...asked }, run) {
      const request = requestOf(measure, (id) => photos.find(id));
      const savedAt = new Date().toISOString();
      return run.engine('shade', { ...asked, request, version: options.version, savedAt });
    },
    async compare({ photos: ids, reference, inView }) {
      return measuredPhotos.compare(ids, reference, inView);
    },
    async match({ photos: [one, other] }) {
      return measuredPhotos.match(one, other);
    },
    async watchRead({ after }) {
      return watch.read(after);
    },
    async watchChoose() {
      return watch.choose();
    },
    async watchStop() {
      await watch.stop();
      return null;
    },
    async carryOutline({ from, to }, { engine }) {
      return engine(
        'carry',
        carryRequestOf(from, to, (id) => photos.find(id)),
      );
    },
    async cancel({ call: other }) {
      calls.cancel(other);
      return null;
    },
  };

  return {
    async call(verb, call, asks) {
      const checked = readAsks(verb as BenchVerb, asks);
      if (!isVerb(verb)) throw new Error(`an unknown verb was read: ${verb}`);
      type Answer = (asks: unknown, run?: CallRun) => Promise<BenchVerbs[BenchVerb]['answers']>;
      const answer = answers[verb] as Answer;
      // Cancelling is no call of its own: it has nothing to be cancelled.
      return verb === 'cancel' ? answer(checked) : calls.run(call, (run) => answer(checked, run));
    },
    addPhoto,
    async addFile(place, name = path.basename(place)) {
      return (await isArchive(place, name)) ? archives.add(place, name) : addPhoto(place, name);
    },
    openArchive(place) {
      tell({ type: 'archive', added: archives.add(place, path.basename(place)) });
    },
    watchFolder: (folder) => watch.start(folder),
    async warmUp() {
      const [sample] = await samples;
      if (!sample) return;
      const run = { decoder: options.decoder, signal: closing.signal, onProgress: () => undefined };
      await pool.run('measure', requestOfSample(sample), run).catch((error: unknown) => {
        // A sample that cannot be read is told of when somebody asks for it.
        if (!closing.signal.aborted && !(error instanceof AppError)) throw error;
      });
    },
    onEvent(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async close() {
      closing.abort(cancelled());
      calls.cancelAll();
      await watch.stop();
      await samplesGiven;
      await presence.close();
      await pool.close();
      await options.decoder.close();
      await copies.close();
    },
  };
}
