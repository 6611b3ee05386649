import { readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

function filesUnder(folder: string, ending: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const file = path.join(folder, name);
    if (statSync(file).isDirectory()) return filesUnder(file, ending);
    return name.endsWith(ending) ? [file] : [];
  });
}

const rows = readFileSync('core/RULES.md', 'utf8')
  .split('\n')
  .filter((line) => /^\| [A-Z]{2}\d+ \|/.test(line));
const ruleIds = rows.map((row) => row.split('|')[1].trim());
// A flow holds tests that several shells run.
const testFiles = [...filesUnder('tests', '.test.ts'), ...filesUnder('tests/support', '-flow.ts')];
const tests = testFiles.map((file) => ({ file, text: readFileSync(file, 'utf8') }));
const code = filesUnder('core', '.ts').map((file) => readFileSync(file, 'utf8'));

/** `[EV1]` or `[EV1, EV3]` in a test's title; `@rule EV1, EV3` in the code. */
const idsIn = (list: string): string[] => list.split(/[,\s]+/).filter((id) => /^[A-Z]{2}\d+$/.test(id));
const tested = new Set(
  tests.flatMap(({ text }) =>
    [...text.matchAll(/\[([A-Z]{2}\d+(?:, ?[A-Z]{2}\d+)*)\]/g)].flatMap((match) => idsIn(match[1])),
  ),
);
const stated = new Set(code.flatMap((text) => [...text.matchAll(/@rule ([A-Z0-9, ]+)/g)].flatMap((m) => idsIn(m[1]))));

describe('core/RULES.md', () => {
  it('numbers each rule once', () => {
    expect(ruleIds.length).toBeGreaterThan(80);
    expect(ruleIds.filter((id, i) => ruleIds.indexOf(id) !== i)).toEqual([]);
  });

  it('every rule opens the title of a test', () => {
    expect(ruleIds.filter((id) => !tested.has(id))).toEqual([]);
  });

  it('every rule that the code or a test names is written down', () => {
    expect([...stated, ...tested].filter((id) => !ruleIds.includes(id))).toEqual([]);
  });

  it('every test file that a rule names exists', () => {
    const named = rows.flatMap((row) => row.match(/tests\/[\w/-]+\.test\.ts/g) ?? []);
    expect(named.length).toBeGreaterThan(rows.length / 2);
    expect([...new Set(named)].filter((file) => !tests.some((test) => test.file === file))).toEqual([]);
  });
});
