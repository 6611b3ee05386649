import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isLongRun } from '../support/long-run';
import { readingsSchema } from '../support/readings-schema';

const program = fileURLToPath(new URL('../..', import.meta.url));
const leftOut = ['t60-camera.series.json', 't60-linear.series.json'];
/** A dozen photos of the tuner's window; every one of them is measured by samples-against-truth too. Here in the long run only. */
const largest = ['t60.series.json', 't60-black.series.json'];
const found = readdirSync(path.join(program, 'samples')).filter(
  (name) => name.endsWith('.series.json') && (isLongRun || !largest.includes(name)),
);
const series = found.filter((name) => !leftOut.includes(name));
const folder = mkdtempSync(path.join(tmpdir(), 'evendial demo '));

/** The program where it stands; in a short run one that came with fewer series. */
function homeOfProgram(): string {
  if (isLongRun) return program;
  const home = path.join(folder, 'program');
  mkdirSync(path.join(home, 'samples'), { recursive: true });
  cpSync(path.join(program, 'dist'), path.join(home, 'dist'), { recursive: true });
  for (const name of found) cpSync(path.join(program, 'samples', name), path.join(home, 'samples', name));
  for (const part of ['node_modules', 'package.json', 'samples/photos'])
    symlinkSync(path.join(program, part), path.join(home, part));
  return home;
}

describe.skipIf(series.length === 0)('evendial demo (skipped when samples/ holds no series file)', () => {
  let code: number | null;
  let out: string;

  beforeAll(() => {
    const home = homeOfProgram();
    const env = { ...process.env, INIT_CWD: folder };
    const done = spawnSync(process.execPath, [path.join(home, 'dist', 'evendial.cjs'), 'demo'], { cwd: home, env });
    code = done.status;
    out = done.stdout.toString();
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('[CL12] measures the samples and says where to look, and how to measure those that it leaves out', () => {
    expect(code).toBe(0);
    expect(out).toContain(`Written to ${path.join(folder, 'out')}`);
    for (const name of leftOut) {
      expect(out).toContain(path.join('samples', name));
      expect(existsSync(path.join(folder, 'out', name.replace('.series.', '.readings.')))).toBe(false);
    }
  });

  it('[CL12] writes a document of the contract for each series, without a failed photo, whose maps are there', () => {
    for (const file of series) {
      const name = path.basename(file, '.series.json');
      const text = readFileSync(path.join(folder, 'out', `${name}.readings.json`), 'utf8');
      const document = readingsSchema.parse(JSON.parse(text));
      for (const entry of [...document.readings, ...(document.reference ?? [])]) {
        if ('error' in entry) throw new Error(`${entry.file}: ${entry.error.message}`);
        expect(existsSync(path.join(folder, 'out', entry.maps?.glowLuminance ?? 'none'))).toBe(true);
      }
    }
  });

  it('[CL12] lays a page beside that shows only pictures that are there, and runs no script', () => {
    const page = readFileSync(path.join(folder, 'out', 'index.html'), 'utf8');
    const sources = [...page.matchAll(/ src="([^"]+)"/g)].map(([, source]) => decodeURIComponent(source));
    expect(sources.length).toBeGreaterThanOrEqual(4 * series.length);
    expect(sources.filter((source) => !existsSync(path.join(folder, 'out', source)))).toEqual([]);
    expect(page).not.toMatch(/<script|https?:/);
    const links = [...page.matchAll(/href="([^"#]+)"/g)].map(([, link]) => decodeURIComponent(link));
    expect(links).toEqual(expect.arrayContaining(sources));
    expect(links.filter((link) => !existsSync(path.join(folder, 'out', link)))).toEqual([]);
    expect(sources.some((source) => source.endsWith('.print-mask.png'))).toBe(true);
  });

  it('[CL12] begins with a table whose links lead to every reading, and tells once what is not built', () => {
    const page = readFileSync(path.join(folder, 'out', 'index.html'), 'utf8');
    const targets = [...page.matchAll(/<section id="([^"]+)"/g)].map(([, id]) => id);
    const links = [...page.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
    expect(links).toEqual(targets);
    expect(new Set(targets).size).toBe(targets.length);
    expect(page.match(/<h2>/g)).toHaveLength(series.length);
    expect(page.match(/not built yet/gi)?.length ?? 0).toBeLessThanOrEqual(1);
    expect(page).not.toMatch(/italic|Georgia/);
  });
});
