import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { mapNames } from '../map-files/map-names';
import { csvText } from './csv';
import { demoIndex, type DemoSeries } from './demo-index';
import { exitCodeOfResult, worstExitCode } from './exit-codes';
import { mappedWindows, measureInShell, openSeriesFile, writeAllMaps } from './measure';
import { documentOf, namesOfFailed, rowsOf } from './readings-document';
import { jsonText } from './rounded';
import type { Shell } from './shell';
import { tableText } from './table';
import { writeWholeFile } from './whole-files';

/** The scale's lamps again, photographed otherwise: half of the demonstration's time, and nothing new at a first look. */
const leftOut: readonly string[] = ['t60-camera.series.json', 't60-linear.series.json'];

async function seriesFiles(samples: string): Promise<string[]> {
  const names = await readdir(samples).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw error;
  });
  const found = names.filter((name) => name.endsWith('.series.json')).sort();
  if (found.length > 0) return found;
  const remedy = "Run 'npm run samples' in the folder of the project: it renders them.";
  throw new AppError('photo', 'SAMPLES_MISSING', `there are no samples in ${samples}`, remedy);
}

async function measureSeries(file: string, out: string, shell: Shell): Promise<{ series: DemoSeries; code: number }> {
  const name = path.basename(file, '.series.json');
  const request = { ...(await openSeriesFile(file, path.basename(file))).request, withMaps: true };
  const result = await measureInShell(request, shell);
  const paths = await writeAllMaps(result, path.join(out, name), out, shell);
  const document = documentOf(request, result, paths);
  const rows = rowsOf(document, namesOfFailed(request, result));
  await writeWholeFile(path.join(out, `${name}.readings.json`), jsonText(document), shell.signal);
  await writeWholeFile(path.join(out, `${name}.readings.csv`), csvText(rows), shell.signal);
  await writeWholeFile(path.join(out, `${name}.readings.txt`), tableText(rows), shell.signal);
  const measured = mappedWindows(result);
  const names = mapNames(measured.map(({ reading }) => reading));
  const entries = measured.map((entry, i) => ({ entry, pictures: `${name}/${names[i]}` }));
  return { series: { name, entries, rows }, code: exitCodeOfResult(result, false) };
}

/** How to measure what the demonstration leaves out. */
function leftOutText(found: readonly string[], samples: string): string {
  const lines = found
    .filter((name) => leftOut.includes(name))
    .map((name) => `  evendial measure --series "${path.join(samples, name)}"\n`);
  return lines.length === 0 ? '' : `The same lamps, photographed otherwise:\n${lines.join('')}`;
}

/**
 * `evendial demo`: measures the samples and lays readings, maps and pictures into `out/` of the caller's folder.
 *
 * @returns the exit code
 * @rule CL12
 */
export async function runDemo(shell: Shell): Promise<number> {
  const samples = path.join(shell.home, 'samples');
  const out = path.join(shell.folder, 'out');
  const all: DemoSeries[] = [];
  const codes: number[] = [];
  const found = await seriesFiles(samples);
  for (const file of found.filter((name) => !leftOut.includes(name))) {
    const { series, code } = await measureSeries(path.join(samples, file), out, shell);
    await shell.print(`${tableText(series.rows)}\n`);
    all.push(series);
    codes.push(code);
  }
  // The terminal ends with the tuning scale's tries, the story of the samples; the page begins with them.
  await writeWholeFile(path.join(out, 'index.html'), demoIndex([...all].reverse()), shell.signal);
  const files = all.map(({ name }) => `  ${name}.readings.json, .csv, .txt; maps and pictures in ${name}/`);
  await shell.print(
    `Written to ${out}:\n  index.html shows everything together\n${files.join('\n')}\n${leftOutText(found, samples)}`,
  );
  return worstExitCode(codes);
}
