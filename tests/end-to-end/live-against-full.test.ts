import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Corners } from '../../core/base/points';
import type { MeasureJob, ReadingMaps, WindowInPhoto } from '../../core/contract/measure';
import type { Reading } from '../../core/contract/readings';
import { readSeries, requestOfSeries } from '../../core/contract/series';
import { measurePhotos } from '../../core/engine';
import { partForWindow } from '../../core/live/linear-part';
import { prepareLive, readLive } from '../../core/live/live-window';
import { createDecoder } from '../../core/node/decode-process';
import { linearPart } from '../../core/node/engine/screen-parts';
import { sampled } from '../support/long-run';

const folder = path.resolve('samples');
const decoder = createDecoder();
afterAll(() => decoder.close());

/** Every window of every sample photo, once. */
function sampleWindows(): { job: MeasureJob; window: WindowInPhoto }[] {
  const seen = new Set<string>();
  return readdirSync(folder)
    .filter((file) => file.endsWith('.series.json'))
    .flatMap((name) => {
      const series = readSeries(readFileSync(path.join(folder, name), 'utf8'), name);
      return requestOfSeries(series, (photo) => path.join(folder, photo)).jobs;
    })
    .flatMap((job) => job.windows.map((window) => ({ job, window })))
    .filter(({ job, window }) => {
      const key = nameOf({ job, window });
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
}

function nameOf({ job, window }: { job: MeasureJob; window: WindowInPhoto }): string {
  return `${job.photo.file} ${window.spec.name}`;
}

const decodePhoto = (file: string, asked: Parameters<typeof decoder.decode>[1]) => decoder.decode(file, asked);

interface FullReading {
  readonly reading: Reading;
  readonly maps: ReadingMaps;
}

async function readFully(job: MeasureJob, window: WindowInPhoto): Promise<FullReading> {
  const request = {
    jobs: [{ ...job, windows: [window] }],
    room: 'dark',
    viewingDistanceMm: 500,
    withMaps: true,
  } as const;
  const { windows } = await measurePhotos(request, { decodePhoto, nowMs: () => 0 });
  const [measured] = windows;
  if ('failed' in measured || !measured.maps) throw new Error(`${job.photo.file} could not be read`);
  return { reading: measured.reading, maps: measured.maps };
}

/** The corners moved as a hand would: one of them inwards by 2 % of the window's length, along it and across. */
function dragged([first, second, third, fourth]: Corners): Corners {
  const by = 0.02 * Math.hypot(second.column - first.column, second.row - first.row);
  return [{ column: first.column + by, row: first.row + by / 3 }, second, third, fourth];
}

/** The live score at some corners, of what a full reading at others froze. */
async function readAlong(job: MeasureJob, window: WindowInPhoto, { reading, maps }: FullReading, at: Corners) {
  const [{ widthPx, heightPx }] = reading.photos;
  const region = { column: 0, row: 0, width: widthPx, height: heightPx };
  const photo = { ...job.photo, path: path.join(folder, job.photo.file) };
  const part = await linearPart({ photo, region, mostPixels: 4e6 }, { decodePhoto });
  const { widthMm, heightMm } = maps;
  const corners = window.corners!;
  const live = prepareLive({
    widthMm,
    heightMm,
    shape: window.spec.shape,
    leaveOut: window.spec.leaveOut,
    photo: { widthPx, heightPx },
    print: { corners, widthMm, heightMm, covered: maps.coveredByPrint, isLit: reading.outline.print === 'light' },
    isFromGreen: maps.isFromGreen,
    viewingDistanceMm: 500,
  });
  return readLive(live, partForWindow(part, corners, maps, live.pxPerMm), at).score;
}

describe('the live score against the full reading', () => {
  const scored: string[] = [];
  const chosen = sampled(sampleWindows(), 3);

  it.each(chosen.map((one) => [nameOf(one), one] as const))(
    '[LV3] %s: within 1.5 points at its corners',
    async (name, { job, window }) => {
      const full = await readFully(job, window);
      const { value } = full.reading.evenness.score;
      if (value === null) return;
      scored.push(name);
      expect(await readAlong(job, window, full, window.corners!)).toBeWithin(value, 1.5);
    },
  );

  const draggedOnes = ['t60-filament.jpg', 't60-tilted.jpg', 't60-warm-white-bare.jpg', 'm4-one-sided.jpg'];
  it.each(draggedOnes)('[LV2, LV3] %s: within 1.5 points of a reading at its dragged corner', async (file) => {
    const { job, window } = sampleWindows().find((one) => path.basename(one.job.photo.file) === file)!;
    const before = await readFully(job, window);
    const moved = { ...window, corners: dragged(window.corners!) };
    const after = await readFully(job, moved);
    expect(await readAlong(job, window, before, moved.corners)).toBeWithin(after.reading.evenness.score.value!, 1.5);
  });

  it('[LV3] most samples have a score to compare', () => {
    expect(scored.length).toBeGreaterThan(chosen.length / 2);
  });
});
