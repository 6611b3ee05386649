import path from 'node:path';
import { AppError } from '../../base/errors';
import type { BenchEvent, BenchPhoto, BenchVerb, BenchVerbs, Hello } from '../../contract/bench';
import { defaultPhotoLimits } from '../decode/photo-limits';
import type { PhotoDecoder } from '../decode-process';
import type { EngineChild, EngineTasks, TaskName } from '../engine/messages';
import { onlyReading } from '../engine/only-reading';
import { EngineStopped } from '../engine/run-task';
import { isVerb, readAsks } from './asks';
import { benchErrorOf } from './bench-error';
import { createEnginePool } from './engine-pool';
import { requestOf, requestOfSample } from './measure-asked';
import { MeasuredPhotos } from './measured-photos';
import { PhotoRegistry, photoRefOf } from './photo-registry';
import { readSamples, sampleNamed } from './samples';

export interface BenchHostOptions {
  readonly shell: Hello['shell'];
  readonly version: string;
  /** samples/ of the program. */
  readonly samplesFolder: string;
  readonly startEngine: () => EngineChild;
  /** Closed with the host. */
  readonly decoder: PhotoDecoder;
  /** Told when a photo has been taken off the bench. */
  readonly onRemoved?: (path: string) => void;
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
  /**
   * Has an engine measure a sample, so that the user's first photo does not wait for one to start and to find its pace: a
   * second or two.
   */
  warmUp(): Promise<void>;
  /** @returns a function that ends the listening */
  onEvent(listener: (event: BenchEvent) => void): () => void;
  close(): Promise<void>;
}

function cancelled(): AppError {
  return new AppError('cancelled', 'CANCELLED', 'Cancelled.', 'Start it again when you are ready.');
}

type Answering = {
  readonly [Verb in BenchVerb]: (asks: BenchVerbs[Verb]['asks']) => Promise<BenchVerbs[Verb]['answers']>;
};

/**
 * The host of the verbs: knows the photos, checks what it is asked, and has engines do the work.
 *
 * @rule BE4, BE6
 */
export function createBenchHost(options: BenchHostOptions): BenchHost {
  const photos = new PhotoRegistry(defaultPhotoLimits.fileBytes);
  const measuredPhotos = new MeasuredPhotos();
  const pool = createEnginePool(options.startEngine);
  const closing = new AbortController();
  const underWay = new Map<string, AbortController>();
  const listeners = new Set<(event: BenchEvent) => void>();
  const samples = readSamples(options.samplesFolder);
  // Asked for, and its failure told, when it is used.
  samples.catch(() => undefined);
  const tell = (event: BenchEvent): void => listeners.forEach((listener) => listener(event));

  async function onEngine<Name extends TaskName>(
    call: string,
    name: Name,
    asks: EngineTasks[Name]['asks'],
  ): Promise<EngineTasks[Name]['answers']> {
    if (underWay.has(call)) {
      throw new AppError('usage', 'CALL_REPEATED', `the call ${call} is under way`, 'Give each call its own name.');
    }
    const cancel = new AbortController();
    underWay.set(call, cancel);
    try {
      return await pool.run(name, asks, {
        decoder: options.decoder,
        signal: cancel.signal,
        onProgress: (progress) => tell({ type: 'progress', call, progress }),
      });
    } catch (error) {
      if (cancel.signal.aborted) throw cancelled();
      if (error instanceof EngineStopped) tell({ type: 'engine-stopped', message: benchErrorOf(error).message });
      throw error;
    } finally {
      underWay.delete(call);
    }
  }

  const refOf = (id: string): EngineTasks['pixels']['asks']['photo'] => photoRefOf(photos.find(id));

  const answersOf = (call: string): Answering => ({
    async hello() {
      const offered = (await samples).map((sample) => sample.offered);
      const { shell, version } = options;
      return { version, shell, photos: photos.list(), samples: offered, mostPhotoBytes: defaultPhotoLimits.fileBytes };
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
        if (removed) options.onRemoved?.(removed.path);
      }
      return null;
    },
    async find({ photo }) {
      const [found] = await onEngine(call, 'find', { photos: [refOf(photo)] });
      if ('error' in found) throw new AppError('photo', found.error.code, found.error.message, found.error.remedy);
      return found;
    },
    async measure(asks) {
      const request = requestOf(asks, (id) => photos.find(id));
      const measured = onlyReading(await onEngine(call, 'measure', request));
      measuredPhotos.keep(asks.photo, measured);
      return { reading: measured.reading, maps: measured.maps };
    },
    async pixels({ photo, mostSidePx, region }) {
      return onEngine(call, 'pixels', { photo: refOf(photo), mostSidePx, region });
    },
    async linear({ photo, region, mostPixels }) {
      return onEngine(call, 'linear', { photo: refOf(photo), region, mostPixels });
    },
    async exportReading({ measure, what }) {
      return onEngine(call, 'files', { request: requestOf(measure, (id) => photos.find(id)), what });
    },
    async compare({ photos: ids, reference }) {
      return measuredPhotos.compare(ids, reference);
    },
    async cancel({ call: other }) {
      underWay.get(other)?.abort(cancelled());
      return null;
    },
  });

  return {
    async call(verb, call, asks) {
      const checked = readAsks(verb as BenchVerb, asks);
      if (!isVerb(verb)) throw new Error(`an unknown verb was read: ${verb}`);
      const answering = answersOf(call)[verb] as (asks: unknown) => Promise<BenchVerbs[BenchVerb]['answers']>;
      return answering(checked);
    },
    addPhoto: (place, name) => photos.add(place, { name: name ?? path.basename(place), isSample: false }),
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
      for (const cancel of underWay.values()) cancel.abort(cancelled());
      await pool.close();
      await options.decoder.close();
    },
  };
}
