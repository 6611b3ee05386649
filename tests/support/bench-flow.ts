import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import type { Reading, ReadingsDocument } from '../../core/contract/readings';
import { printedEvenness, putPhotos, samplePhoto, stateSize, waitForRest } from './bench-page';
import { smallPhoto } from './small-photo';

/** What the path through the bench needs of the shell that it is walked in. */
export interface ShellForFlow {
  /** A bench without photos. */
  page(): Page;
  /** A folder for files. */
  folder(): string;
  /** Does what saves a file, and gives the place where it went. */
  saved(act: () => Promise<void>): Promise<string>;
}

/**
 * The path through the bench, the same in every shell.
 *
 * @param whyNot  why it is not walked here; null: it is
 */
export function testBenchFlow(shell: ShellForFlow, whyNot: string | null = null): void {
  const skipped = whyNot === null ? '' : ` (skipped: ${whyNot})`;
  const walk = it.skipIf(whyNot !== null);
  walk(
    `[SC10] one click on a sample gives its verdict: figure with plus-minus and words, maps, spots, checks${skipped}`,
    async () => {
      const page = shell.page();
      await page
        .getByRole('button', { name: /Bare warm-white LEDs/ })
        .first()
        .click();
      await waitForRest(page);
      expect(await printedEvenness(page)).toMatch(/^\d+±\d+$/);
      expect(await page.locator('[data-figure="Evenness"] .word').innerText()).not.toBe('');
      expect(await page.locator('.strip').count()).toBe(3);
      expect(await page.locator('.spot-mark.hot').count()).toBeGreaterThan(1);
      expect(await page.locator('[data-gate]').count()).toBeGreaterThan(0);
    },
  );

  walk(`[SC10] a refused photo says why and what to do; a broken file disturbs no other${skipped}`, async () => {
    const page = shell.page();
    const broken = path.join(shell.folder(), 'broken.jpg');
    writeFileSync(broken, readFileSync(samplePhoto('t60-small.jpg')).subarray(0, 400));
    const clipped = await smallPhoto('t60-clipped.jpg', path.join(shell.folder(), 't60-clipped.jpg'));
    await putPhotos(page, [clipped, broken, samplePhoto('t60-small.jpg')]);
    await page.locator('.strip-card').nth(2).waitFor();
    await waitForRest(page);
    await page.locator('[data-photo="t60-clipped.jpg"]').click();
    expect(await printedEvenness(page)).toBeNull();
    const gate = page.locator('[data-gate="PHOTO_CLIPPED"]');
    expect(await gate.locator('.remedy').innerText()).toMatch(/expos/i);
    await page.locator('[data-photo="broken.jpg"]').click();
    expect(await page.locator('.side').innerText()).toMatch(/Measure it again/);
    await page.locator('[data-photo="t60-small.jpg"]').click();
    expect(await printedEvenness(page)).toMatch(/^\d+±\d+$/);
  });

  walk(
    `[SC11] a corner is moved by keys and by dragging, each can be undone; the reading saved is the command line’s${skipped}`,
    async () => {
      const page = shell.page();
      await putPhotos(page, [samplePhoto('t60-small.jpg')]);
      await page.locator('.strip-card').first().waitFor();
      await waitForRest(page);
      await page.locator('[data-station="outline"]').click();
      // A third as wide as it is, so that each step is measured sooner.
      await stateSize(page, 30, 6);
      const second = page.locator('.corner').nth(1);
      await second.focus();
      const label = (): Promise<string | null> => second.getAttribute('aria-label');
      const xOf = async (): Promise<number> => Number(/x ([\d.]+)/.exec((await label()) ?? '')?.[1]);
      const before = await xOf();
      await page.keyboard.press('ArrowLeft');
      await page.keyboard.press('Shift+ArrowLeft');
      // The first step also rounds to quarters of a pixel.
      expect(await xOf()).toBeWithin(before - 2.75, 0.13);
      await waitForRest(page);
      await page.keyboard.press('Control+z');
      await page.keyboard.press('Control+z');
      await waitForRest(page);
      expect(await xOf()).toBe(before);

      const box = (await second.boundingBox())!;
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width / 2 - 20, box.y + box.height / 2 + 6, { steps: 8 });
      await page.locator('[data-live-score] b').waitFor();
      expect(await page.locator('[data-live-score]').innerText()).toMatch(/about \d+/);
      await page.mouse.up();
      await waitForRest(page);
      expect(await xOf()).toBeLessThan(before - 10);

      await page.locator('[data-station="reading"]').click();
      const file = await shell.saved(() => page.getByRole('button', { name: 'JSON', exact: true }).click());
      const saved = readingIn(readFileSync(file, 'utf8'));
      const corners = saved.outline.cornersPx.map((corner) => corner.join(',')).join(' ');
      const args = ['measure', samplePhoto('t60-small.jpg'), '--json', '--size', '30x6', '--corners', corners];
      const printed = execFileSync(process.execPath, ['dist/evendial.cjs', ...args], { encoding: 'utf8' });
      expect(figuresOf(saved)).toEqual(figuresOf(readingIn(printed)));
    },
  );
}

function readingIn(text: string): Reading {
  const [entry] = (JSON.parse(text) as ReadingsDocument).readings;
  if ('error' in entry) throw new Error(entry.error.message);
  return entry;
}

/** Everything that is measured: without times, and without the name by which the file was called. */
function figuresOf({ photos, timingMs, ...rest }: Reading): unknown {
  void timingMs;
  return { ...rest, photos: photos.map(({ file, ...facts }) => ({ ...facts, file: path.basename(file) })) };
}
