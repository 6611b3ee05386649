// The benchmark: where the time of one measurement goes, against the decode alone. It never fails a test run.
import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import type { MeasureJob } from '../../core/contract/measure';
import { createDecoder, type PhotoDecoder } from '../../core/node/decode-process';
import { linearisePhoto } from '../../core/photo/linearise';
import { readWindow } from '../../core/reading/reading';
import { peakMemoryText } from './peak-memory';
import { writeLargePhoto, type LargePhoto } from './photos';

const rounds = 5;
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** The decode alone, in this process: what the rest is compared with. */
async function decodeAlone(file: string): Promise<number> {
  const started = performance.now();
  await sharp(file).raw().toBuffer();
  return performance.now() - started;
}

function jobOf({ file, corners }: LargePhoto): MeasureJob {
  const shape = { kind: 'rectangle' } as const;
  const spec = { name: 'scale', shape, print: 'dark', leaveOut: [], paintedRed: [], paintedDark: [] } as const;
  return {
    role: 'trial',
    name: 'timing',
    photo: { file, path: file, encoding: 'profile', encodingStated: false, exposure: {} },
    light: 'warm-white',
    windows: [{ spec, sizeMm: { widthMm: 92, heightMm: 18 }, corners }],
  };
}

/** One whole measurement; the time of each stage in ms, in order. */
async function measureOnce(photo: LargePhoto, decoder: PhotoDecoder): Promise<Map<string, number>> {
  const stages = new Map<string, number>();
  let last = performance.now();
  const onStage = (stage: string): void => {
    const now = performance.now();
    stages.set(stage, now - last);
    last = now;
  };
  const job = jobOf(photo);
  const columns = photo.corners.map((corner) => corner.column);
  const rows = photo.corners.map((corner) => corner.row);
  const column = Math.floor(Math.min(...columns)) - 4;
  const row = Math.floor(Math.min(...rows)) - 4;
  const regionPx = { column, row, width: Math.max(...columns) + 4 - column, height: Math.max(...rows) + 4 - row };
  const decoded = await decoder.decode(photo.file, {
    regionPx: { ...regionPx, width: Math.ceil(regionPx.width), height: Math.ceil(regionPx.height) },
  });
  onStage('decode');
  const linear = linearisePhoto(decoded, 'profile', false);
  onStage('linear light');
  const request = { room: 'dark', viewingDistanceMm: 500 } as const;
  readWindow({
    job,
    window: { ...job.windows[0], corners: photo.corners },
    facts: decoded.facts,
    linear,
    request,
    onStage,
  });
  return stages;
}

async function time(photo: LargePhoto): Promise<void> {
  const decoder = createDecoder({});
  const alone: number[] = [];
  const runs: Map<string, number>[] = [];
  try {
    await measureOnce(photo, decoder); // starts the child and warms the code
    for (let round = 0; round < rounds; round++) {
      alone.push(await decodeAlone(photo.file));
      runs.push(await measureOnce(photo, decoder));
    }
    const decodeMs = median(alone);
    const totalMs = median(runs.map((run) => [...run.values()].reduce((a, b) => a + b, 0)));
    console.log(`\n${photo.megapixels.toFixed(0)} MP JPEG: decode alone ${decodeMs.toFixed(0)} ms`);
    console.log(
      `  whole measurement ${totalMs.toFixed(0)} ms = ${(totalMs / decodeMs).toFixed(1)} times the decode alone`,
    );
    for (const stage of runs[0].keys()) {
      console.log(
        `  ${stage.padEnd(14)} ${median(runs.map((run) => run.get(stage) ?? 0))
          .toFixed(0)
          .padStart(6)} ms`,
      );
    }
    console.log(`  peak memory: ${peakMemoryText()}`);
  } finally {
    await decoder.close();
  }
}

async function main(): Promise<void> {
  const sample = process.argv[2] ?? 'samples/photos/t60-warm-white-bare.jpg';
  const folder = await mkdtemp(path.join(os.tmpdir(), 'evendial-timings-'));
  try {
    console.log(`Median of ${rounds} runs after a warm-up; the ratios of one run compare, the times do not.`);
    for (const [width, height] of [
      [2000, 1500],
      [4000, 3000],
      [8000, 6000],
    ]) {
      await time(await writeLargePhoto(sample, folder, width, height));
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
