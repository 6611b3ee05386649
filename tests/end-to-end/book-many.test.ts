import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Book } from '../../core/node/book/book';
import { isLongRun } from '../support/long-run';
import { writeUnit } from '../support/many-units';

const count = isLongRun ? 10_000 : 1000;
/** Read anew, from the index, searched. Seconds for 10 000 units are the aim; a busy machine gets five times as much. */
const aims = { openS: 2, searchS: 1, memoryMb: 300 };
const slack = 5;
const patienceMs = 600_000;
let folder: string;

async function seconds<T>(act: () => Promise<T>): Promise<[T, number]> {
  const begun = performance.now();
  const result = await act();
  return [result, (performance.now() - begun) / 1000];
}

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial many '));
  for (let i = 0; i < count; i++) writeUnit(folder, i);
}, patienceMs);
afterAll(() => rmSync(folder, { recursive: true }), patienceMs);

describe(`a book of ${count} units`, () => {
  it('[BK18] opens, is searched and shows a unit in seconds', { timeout: patienceMs }, async () => {
    const [all, indexS] = await seconds(() => new Book(folder).list());
    expect(all).toHaveLength(count);
    const before = process.memoryUsage().rss;
    const [again, openS] = await seconds(() => new Book(folder).list());
    expect(again).toHaveLength(count);
    const [found, searchS] = await seconds(() => new Book(folder).list(`lot ${count - 1} noise`));
    expect(found.map((unit) => unit.id)).toEqual([`unit-${count - 1}`]);
    const [shown] = await seconds(() => new Book(folder).read('unit-7'));
    expect(shown.name).toBe('Unit 7');
    const memoryMb = (process.memoryUsage().rss - before) / 2 ** 20;
    const share = count / 10_000;
    console.log(
      `${count} units: index made in ${indexS.toFixed(2)} s, opened in ${openS.toFixed(2)} s, ` +
        `searched in ${searchS.toFixed(2)} s, ${memoryMb.toFixed(0)} MB more`,
    );
    expect(openS).toBeLessThan(Math.max(0.5, aims.openS * share) * slack);
    expect(searchS).toBeLessThan(Math.max(0.5, aims.searchS * share) * slack);
    expect(memoryMb).toBeLessThan(aims.memoryMb);
  });
});
