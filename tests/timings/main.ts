// The benchmark: where the time of one measurement goes, against the decode alone. It never fails a test run.
import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import type { MeasureJob } from '../../core/contract/measure';
import { createDecoder, type PhotoDecoder } from '../../core/node/decode-process';
import { linearisePhoto } from '../../core/photo/linearise';
import { readWindow } from '../../core/reading/reading';
import { reductionFor } from '../../core/window/reduction';
import { childCpuMs, peakMemoryText } from './peak-memory';
import { writeLargePhoto, type LargePhoto } from './photos';

const sizeMm = { widthMm: 92, heightMm: 18 };
/** As the engine decodes around the corners. */
const marginPx = 12;
const rounds = 5;
/** Starts the child and compiles the code: a bench measures many photos. */
const warmUps = 3;
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** Time that passed, and time that this process computed: the second does not feel what else the machine does. */
interface Spent {
  readonly wallMs: number;
  readonly cpuMs: number;
}

/** Starts a stopwatch; each call tells what was spent since the one before. */
function stopwatch(): () => Spent {
  let wall = performance.now();
  let cpu = process.cpuUsage();
  return () => {
    const [now, used] = [performance.now(), process.cpuUsage(cpu)];
    const spent = { wallMs: now - wall, cpuMs: (used.user + used.system) / 1000 };
    wall = performance.now();
    cpu = process.cpuUsage();
    return spent;
  };
}

/** The decode alone, in this process: what the rest is compared with. */
async function decodeAlone(file: string): Promise<Spent> {
  const lap = stopwatch();
  await sharp(file).raw().toBuffer();
  return lap();
}

function jobOf({ file, corners }: LargePhoto): MeasureJob {
  const shape = { kind: 'rectangle' } as const;
  const spec = { name: 'scale', shape, print: 'dark', leaveOut: [], paintedRed: [], paintedDark: [] } as const;
  return {
    role: 'trial',
    name: 'timing',
    photo: { file, path: file, encoding: 'profile', encodingStated: false, exposure: {} },
    light: 'warm-white',
    windows: [{ spec, sizeMm, corners }],
  };
}

/** One whole measurement; what each stage took, in order. */
async function measureOnce(photo: LargePhoto, decoder: PhotoDecoder): Promise<Map<string, Spent>> {
  const stages = new Map<string, Spent>();
  const lap = stopwatch();
  const onStage = (stage: string): void => {
    stages.set(stage, lap());
  };
  const childBefore = childCpuMs();
  const job = jobOf(photo);
  const columns = photo.corners.map((corner) => corner.column);
  const rows = photo.corners.map((corner) => corner.row);
  const column = Math.floor(Math.min(...columns)) - marginPx;
  const row = Math.floor(Math.min(...rows)) - marginPx;
  const width = Math.ceil(Math.max(...columns)) + marginPx - column;
  const height = Math.ceil(Math.max(...rows)) + marginPx - row;
  const decoded = await decoder.decode(photo.file, { regionPx: { column, row, width, height } });
  const { wallMs, cpuMs } = lap();
  stages.set('decode', { wallMs, cpuMs: cpuMs + childCpuMs() - childBefore });
  const linear = linearisePhoto(decoded, 'profile', false, reductionFor([{ corners: photo.corners, sizeMm }]));
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

const sumOf = (run: Map<string, Spent>, part: keyof Spent): number =>
  [...run.values()].reduce((sum, spent) => sum + spent[part], 0);

function report(photo: LargePhoto, alone: readonly Spent[], runs: readonly Map<string, Spent>[]): void {
  const [wallAlone, cpuAlone] = (['wallMs', 'cpuMs'] as const).map((part) => median(alone.map((one) => one[part])));
  const line = (name: string, ofRun: (run: Map<string, Spent>, part: keyof Spent) => number): string => {
    const [wall, cpu] = (['wallMs', 'cpuMs'] as const).map((part) => median(runs.map((run) => ofRun(run, part))));
    const columns = [wall.toFixed(0), (wall / wallAlone).toFixed(2), cpu.toFixed(0), (cpu / cpuAlone).toFixed(2)];
    return `  ${name.padEnd(18)}${columns.map((text) => text.padStart(9)).join('')}`;
  };
  console.log(`\n${photo.megapixels.toFixed(0)} MP JPEG   time passed, ms  / decode   computed, ms  / decode`);
  console.log(
    `  decode alone      ${wallAlone.toFixed(0).padStart(9)}${''.padStart(9)}${cpuAlone.toFixed(0).padStart(9)}`,
  );
  console.log(line('whole measurement', sumOf));
  for (const stage of runs[0].keys()) console.log(line(`  ${stage}`, (run, part) => run.get(stage)?.[part] ?? 0));
  console.log(`  peak memory: ${peakMemoryText()}`);
}

async function time(photo: LargePhoto): Promise<void> {
  const decoder = createDecoder({ processes: 1 });
  const alone: Spent[] = [];
  const runs: Map<string, Spent>[] = [];
  try {
    for (let round = 0; round < warmUps; round++) await measureOnce(photo, decoder);
    for (let round = 0; round < rounds; round++) {
      alone.push(await decodeAlone(photo.file));
      runs.push(await measureOnce(photo, decoder));
    }
    report(photo, alone, runs);
  } finally {
    await decoder.close();
  }
}

async function main(): Promise<void> {
  const sample = process.argv[2] ?? 'samples/photos/t60-warm-white-bare.jpg';
  const folder = await mkdtemp(path.join(os.tmpdir(), 'evendial-timings-'));
  try {
    console.log(
      `Median of ${rounds} runs after ${warmUps} to warm up; the ratios of one run compare, the times do not.`,
    );
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
