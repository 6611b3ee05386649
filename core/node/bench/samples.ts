import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../../base/errors';
import type { SampleOffered } from '../../contract/bench';
import type { MeasureJob, MeasureRequest } from '../../contract/measure';
import type { OutlineShape } from '../../contract/outline';
import { readSeries, requestOfSeries } from '../../contract/series';

export interface Sample {
  readonly offered: SampleOffered;
  readonly path: string;
}

/** Whether the search can see the shape by itself: a plain rectangle or ellipse. */
function isPlain(shape: OutlineShape): boolean {
  return shape.kind === 'rectangle' || (shape.kind === 'ellipse' && shape.cutMm === undefined);
}

function sampleOf(job: MeasureJob, room: MeasureRequest['room']): Sample | null {
  const { light, photo } = job;
  const [window, another] = job.windows;
  // The page measures one window a photo, and states no encoding: it is offered what it can measure as it is.
  if (another !== undefined || window.sizeMm === null || photo.encoding === 'linear') return null;
  const { shape } = window.spec;
  const offered = {
    name: path.basename(photo.path),
    title: job.role === 'reference' ? 'Filament lamps, before the swap' : job.name,
    light,
    room,
    sizeMm: window.sizeMm,
    ...(isPlain(shape) ? {} : { shape }),
  };
  return { offered, path: photo.path };
}

/**
 * The sample photos, as the samples' series describe them, each once.
 *
 * @param folder  samples/ of the program
 * @returns an empty list when the program came without samples
 */
export async function readSamples(folder: string): Promise<Sample[]> {
  const names = await readdir(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw error;
  });
  const samples = new Map<string, Sample>();
  // The tuning scale's evening first, then the others.
  const files = names.filter((name) => name.endsWith('.series.json')).sort((a, b) => order(a) - order(b));
  for (const file of files) {
    const series = readSeries(await readFile(path.join(folder, file), 'utf8'), file);
    const { jobs, room } = requestOfSeries(series, (photo) => path.join(folder, photo));
    for (const job of jobs) {
      const sample = sampleOf(job, room);
      if (sample && !samples.has(sample.offered.name)) samples.set(sample.offered.name, sample);
    }
  }
  return [...samples.values()];
}

function order(file: string): number {
  const known = ['t60.series.json', 'm4.series.json'].indexOf(file);
  return known < 0 ? 2 : known;
}

/** @throws AppError SAMPLE_UNKNOWN */
export function sampleNamed(samples: readonly Sample[], name: string): Sample {
  const sample = samples.find(({ offered }) => offered.name === name);
  if (sample) return sample;
  const message = `there is no sample ${JSON.stringify(name)}`;
  throw new AppError('usage', 'SAMPLE_UNKNOWN', message, "Run 'npm run samples' when the samples are missing.");
}
