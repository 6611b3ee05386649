import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { testBenchFlow } from '../support/bench-flow';
import {
  chromiumFile,
  printedEvenness,
  putPhotos,
  samplePhoto,
  stateSize,
  toTheBench,
  waitForRest,
  whyNoChromium,
} from '../support/bench-page';
import { BrowserBench, downloaded, seriousFindings } from '../support/browser-bench';
import { isLongRun } from '../support/long-run';
import { longestPageTaskMs } from '../support/page-tasks';
import { smallPhoto } from '../support/small-photo';

// Seconds on an idle machine; other tests, and other work on the machine, may take most of it.
describe.skipIf(!chromiumFile)(`the bench in a browser${whyNoChromium}`, { timeout: 300_000 }, () => {
  let browserBench: BrowserBench;
  let page: Page;
  let folder: string;

  beforeAll(async () => {
    browserBench = await BrowserBench.start();
    folder = mkdtempSync(path.join(tmpdir(), 'evendial-bench-'));
  });
  afterAll(async () => {
    await browserBench.close();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(async () => {
    page = await browserBench.newPage();
    await toTheBench(page);
  });
  afterEach(() => browserBench.expectNoDefect());

  const put = async (files: readonly string[]): Promise<void> => {
    await putPhotos(page, files);
    await page
      .locator('.strip-card')
      .nth(files.length - 1)
      .waitFor();
    await waitForRest(page);
  };
  const measured = (...names: string[]): Promise<void> => put(names.map(samplePhoto));
  /** Where the figures are not the point. */
  const measuredSmall = async (...names: string[]): Promise<void> =>
    put(await Promise.all(names.map((name) => smallPhoto(name, path.join(folder, name)))));

  testBenchFlow({
    page: () => page,
    folder: () => folder,
    saved: (act) => downloaded(page, path.join(folder, 'saved-reading'), act),
  });

  it('[SC12] the path by keyboard alone: a sample, its outline, its reading, the list of keys', async () => {
    await page
      .getByRole('button', { name: /Bare warm-white LEDs/ })
      .first()
      .focus();
    await page.keyboard.press('Enter');
    await page.locator('.strip-card').first().waitFor();
    await waitForRest(page);
    await page.keyboard.press('2');
    await page.locator('.corner').first().waitFor();
    for (let n = 0; n < 40; n++) {
      await page.keyboard.press('Tab');
      if ((await page.locator('.corner:focus').count()) > 0) break;
    }
    expect(await page.locator('.magnifier').innerText()).toMatch(/Corner 1/);
    await page.keyboard.press('3');
    await page.keyboard.press('?');
    expect(await page.getByRole('dialog').innerText()).toMatch(/Ctrl Z/);
    // Whoever speaks to the machine turns the keys without Ctrl off; what is left goes on working.
    await page.getByRole('checkbox', { name: /Keys without Ctrl/ }).uncheck();
    await page.keyboard.press('Escape');
    expect(await page.getByRole('dialog').count()).toBe(0);
    await page.keyboard.press('2');
    expect(await page.locator('[data-station="reading"]').getAttribute('aria-current')).toBe('page');
    await page.keyboard.press('?');
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('[SC13] no serious finding of axe on any station, in both themes and on the other one’s surround', async () => {
    const found: string[] = [];
    const look = async (where: string, seen: 'all' | 'colours'): Promise<void> => {
      found.push(...(await seriousFindings(page, where, seen)));
    };
    await look('empty', 'all');
    await measuredSmall('t60-clipped.jpg', 't60-warm-white-bare.jpg');
    for (const [theme, seen, other] of [
      ['dark', 'all', 'light'],
      ['light', 'colours', 'dark'],
    ] as const) {
      for (const station of ['photos', 'outline', 'reading']) {
        await page.locator(`[data-station="${station}"]`).click();
        await page.locator('.side').waitFor();
        await look(`${station}, ${theme}`, seen);
      }
      while ((await page.locator('html').getAttribute('data-surround')) !== other) await page.keyboard.press('s');
      await look(`reading, ${theme}, round the photo ${other}`, 'colours');
      await page.keyboard.press('t');
    }
    expect(found).toEqual([]);
  });

  it('[SC14] a page loaded again finds its photos, as they were set', async () => {
    await measured('t60-small.jpg');
    await page.locator('[data-station="outline"]').click();
    const corner = page.locator('.corner').first();
    await corner.focus();
    await page.keyboard.press('Shift+ArrowRight');
    await waitForRest(page);
    const moved = await corner.getAttribute('aria-label');
    await page.locator('[data-station="reading"]').click();
    const before = await printedEvenness(page);
    await page.reload();
    await page.locator('.strip-card').first().waitFor();
    await waitForRest(page);
    expect(await printedEvenness(page)).toBe(before);
    await page.locator('[data-station="outline"]').click();
    expect(await corner.getAttribute('aria-label')).toBe(moved);
  });

  it('[SC17] an address without its token says what to do', async () => {
    const other = await page.context().browser()!.newContext();
    const stranger = await other.newPage();
    await stranger.goto(browserBench.bench.address.replace(/#.*/, ''));
    expect(await stranger.getByRole('alert').innerText()).toMatch(/address/);
    await other.close();
  });

  it('[SC12] + enlarges all maps, 0 shows the whole window again', async () => {
    await measured('t60-small.jpg');
    const lastMark = async (): Promise<number> => Number(await page.locator('.strips .ruler span').last().innerText());
    const whole = await lastMark();
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    expect(await lastMark()).toBeLessThan(whole);
    await page.keyboard.press('0');
    expect(await lastMark()).toBe(whole);
  });

  it('[SC18, SC19, SC35] two tries stand side by side, in words and in order; what one is read with goes to all, and back', async () => {
    await measuredSmall('t60-warm-white-bare.jpg', 't60-warm-white-diffuser.jpg', 'm4-filament.jpg');
    await page.locator('[data-photo="t60-warm-white-diffuser.jpg"]').click();
    await page.locator('[data-station="compare"]').click();
    await page.locator('[data-against]').selectOption({ label: 't60-warm-white-bare.jpg' });
    await page.locator('.slide canvas').first().waitFor();
    expect(await page.locator('.well h2').innerText()).toMatch(/^Better in evenness than t60-warm-white-bare.jpg/);
    // A letter chooses from the list that has the focus; the page does nothing with it.
    await page.locator('[data-against]').focus();
    for (const key of ['f', 't', 's', 'b', '2', '0', '?', 'u']) await page.keyboard.press(key);
    expect(await page.getByRole('dialog').count()).toBe(0);
    expect(await page.locator('[data-station="compare"]').getAttribute('aria-current')).toBe('page');
    expect(await page.locator('html').getAttribute('data-theme')).toBe('dark');
    expect(await page.locator('.slide .edge').first().getAttribute('style')).toMatch(/left: 50%/);
    const ranked = page.locator('[data-ranking="evenness"] button');
    await ranked.first().waitFor();
    expect(await ranked.allInnerTexts()).toEqual(['t60-warm-white-diffuser.jpg', 't60-warm-white-bare.jpg']);
    expect(await page.locator('.side').innerText()).toMatch(/One photo shows another window/);
    const edge = page.locator('.slide .edge').first();
    await page.getByRole('slider').fill('0.25');
    expect(await edge.getAttribute('style')).toMatch(/left: 25%/);
    await page.locator('.well h2').click();
    await page.keyboard.press('b');
    expect(await edge.getAttribute('style')).toMatch(/left: 100%/);
    expect(await page.locator('.side').innerText()).not.toMatch(/undefined|NaN/);

    await page.locator('[data-station="photos"]').click();
    const flatField = page.getByLabel('Flat field');
    await flatField.selectOption({ label: 'm4-filament.jpg' });
    await page.getByRole('button', { name: /The same for the other photo/ }).click();
    await waitForRest(page);
    await page.locator('[data-photo="t60-warm-white-bare.jpg"]').click();
    expect(await flatField.locator('option:checked').innerText()).toBe('m4-filament.jpg');
    await page.keyboard.press('Control+z');
    expect(await flatField.locator('option:checked').innerText()).toBe('none');
    await waitForRest(page);
  });

  it('[SC15] thirty photos at once never hold the page up for long', async () => {
    const first = path.join(folder, 'first.jpg');
    await sharp(samplePhoto('t60-small.jpg')).resize(400).jpeg({ quality: 95 }).toFile(first);
    const copies = Array.from({ length: 30 }, (_, i) => {
      const file = path.join(folder, `copy-${i}.jpg`);
      copyFileSync(first, file);
      return file;
    });
    // The window of the first is a third as wide as it is, and so are those after it: measured sooner, and drawn as large.
    await putPhotos(page, [first]);
    await page.locator('.strip-card').first().waitFor();
    await page.locator('[data-station="outline"]').click();
    await stateSize(page, 30, 6);
    const longest = await longestPageTaskMs(page, async () => {
      await putPhotos(page, copies);
      await page.locator('.strip-card').nth(copies.length).waitFor();
      // All of them lie there, and each that is measured is one task like the others: the last ones in the long run only.
      if (isLongRun) await waitForRest(page);
      else await page.locator('.foot .said', { hasText: /^1\d of 31 photos measured/ }).waitFor();
    });
    expect(longest).toBeLessThan(100);
  });
});
