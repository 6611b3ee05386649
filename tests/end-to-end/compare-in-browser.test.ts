import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  chromiumFile,
  putPhotos,
  samplePhoto,
  stateSize,
  toTheBench,
  waitForRest,
  whyNoChromium,
} from '../support/bench-page';
import { axeOn, BrowserBench, themeRules } from '../support/browser-bench';
import { smallPhoto } from '../support/small-photo';

describe.skipIf(!chromiumFile)(`station Compare in a browser${whyNoChromium}`, { timeout: 300_000 }, () => {
  let browserBench: BrowserBench;
  let page: Page;
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-compare-page-'));

  beforeAll(async () => {
    browserBench = await BrowserBench.start();
    page = await browserBench.newPage();
    await toTheBench(page);
    const names = ['single-left.jpg', 'sweep-4-mm.jpg', 'sweep-16-mm.jpg', 'single-right.jpg'];
    const [first, ...later] = await Promise.all(
      names.map((name) => smallPhoto(`../sets/photos/${name}`, path.join(folder, name))),
    );
    await putPhotos(page, [first]);
    await page.locator('.strip-card').first().waitFor();
    // Said of one photo, the size is that of all photos of its window; the meter is another one.
    await page.locator('[data-station="outline"]').click();
    await stateSize(page, 30, 6);
    await putPhotos(page, [...later, samplePhoto('m4-filament.jpg')]);
    await page.locator('.strip-card').nth(4).waitFor();
    await waitForRest(page);
    await page.locator('[data-station="compare"]').click();
  });
  afterAll(async () => {
    await browserBench.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const view = (name: string): Promise<void> => page.locator(`[data-view="${name}"]`).click();
  const inView = async (photo: string): Promise<void> => page.locator(`[data-photo="${photo}"]`).click();

  it('[SC32] lamps photographed alone are added up: moving one current moves the forecast, and the best can be taken', async () => {
    await inView('single-left.jpg');
    await view('lamps');
    for (const name of ['single-left.jpg', 'single-right.jpg']) await page.locator(`[data-lamp="${name}"]`).check();
    const forecast = page.locator('[data-figure="Forecast evenness"] .large');
    await forecast.waitFor();
    const before = await forecast.innerText();
    const slider = page.getByRole('slider', { name: /Current of/ });
    await slider.fill('-2');
    await expect.poll(() => forecast.innerText(), { timeout: 60_000 }).not.toBe(before);
    await page.getByRole('button', { name: /most even currents/ }).click();
    const best = Number(
      /^[\d.]+/.exec(await page.locator('.lamp-ratios tbody tr').nth(1).locator('td').last().innerText())?.[0],
    );
    // As printed: rounded to its plus-minus.
    await expect.poll(async () => Number(await slider.getAttribute('aria-valuetext'))).toBeWithin(best, 0.06);
    expect(await page.locator('.strip').count()).toBe(1);
  });

  it('[SC32] draws profiles, colours and the sweep of names that tell a place; a written place joins them', async () => {
    await inView('sweep-4-mm.jpg');
    await view('profiles');
    await expect.poll(() => page.locator('.plot .line').count()).toBe(2);
    const line = page.locator('.plot .line.this');
    const middle = await line.getAttribute('d');
    await page.getByRole('slider', { name: /Where the line runs/ }).fill('0.1');
    expect(await line.getAttribute('d')).not.toBe(middle);
    await view('colour');
    expect(await page.locator('.plot ellipse').count()).toBe(4);
    expect(await page.locator('.plot').textContent()).toContain('2700 K');
    await view('sweep');
    expect(await page.locator('main h2').innerText()).toMatch(/^Most even at (4|16|4 and 16) mm/);
    await page.locator('[data-place-of="sweep-16-mm.jpg"]').fill('20.5');
    await page.locator('.plot[aria-label*="20.5 mm"]').waitFor();
  });

  it('[SC32] says how alike two windows are, or what does not tie their photos', async () => {
    await view('windows');
    await page.locator('[data-beside]').selectOption({ label: 'm4-filament.jpg' });
    const match = page.locator('[data-match]');
    await match.waitFor();
    await expect.poll(() => match.locator('dd.word').first().innerText()).not.toBe('');
    expect(await match.innerText()).not.toMatch(/[\w-]{16}: /);
    // Both windows above the figures, to one scale: 30 x 6 mm, and the meter, which nobody measured, 60 mm wide.
    const pictures = page.locator('.two-windows');
    expect(await pictures.locator('h2').allInnerTexts()).toEqual(['sweep-4-mm.jpg', 'm4-filament.jpg']);
    await expect.poll(() => pictures.locator('.strip canvas').count()).toBe(4);
    const boxes = await pictures
      .locator('.strip')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON() as DOMRect));
    const pxPerMm = boxes[0].width / 60;
    for (const box of boxes) expect(box.width).toBeWithin(boxes[0].width, 0.5); // half a pixel of rounding
    expect(boxes[0].height).toBeWithin(6 * pxPerMm, 1);
    expect(boxes[2].height).toBeWithin(60 * pxPerMm, 0.1 * boxes[2].height); // as high as the search finds it wide
    expect(boxes[3].y).toBeLessThan((await match.boundingBox())!.y);
    expect(await pictures.locator('[data-scales]').innerText()).toMatch(/^The size of m4-filament\.jpg is assumed/);
  });

  it('[SC11] the ruler under a high window has the millimetres of its picture', async () => {
    await inView('m4-filament.jpg');
    await page.locator('[data-station="outline"]').click();
    const across = async (part: string): Promise<{ x: number; width: number }> => {
      const box = (await page.locator(`.preview ${part}`).boundingBox())!;
      return { x: box.x, width: box.width };
    };
    await page.locator('.preview canvas').waitFor();
    expect(await across('.ruler')).toEqual(await across('canvas'));
    await page.locator('[data-station="compare"]').click();
  });

  it('[SC40] says whose size a photo took over; one click takes it back, and undo gives it again', async () => {
    await inView('sweep-4-mm.jpg');
    await page.locator('[data-station="reading"]').click();
    const from = page.locator('[data-size-from]');
    await from.waitFor();
    expect(await from.innerText()).toContain('30 × 6 mm, taken over from the window of single-left.jpg');
    await from.locator('[data-other-window]').click();
    await page.locator('[data-gate="SIZE_ASSUMED"]').waitFor();
    expect(await from.count()).toBe(0);
    await page.keyboard.press('Control+z');
    await from.waitFor();
    await waitForRest(page);
    await page.locator('[data-station="compare"]').click();
  });

  it('[SC32] every way to compare by keyboard, without a finding of axe in either theme', async () => {
    await page.locator('[data-view="pair"]').focus();
    for (const theme of ['dark', 'light']) {
      for (const name of ['pair', 'profiles', 'colour', 'sweep', 'windows', 'lamps']) {
        await page.locator(`[data-view="${name}"]`).focus();
        await page.keyboard.press('Enter');
        expect(await page.locator(`[data-view="${name}"]`).getAttribute('aria-pressed')).toBe('true');
        const axe = axeOn(page).include('main');
        const { violations } = await (theme === 'dark' ? axe : axe.withRules(themeRules)).analyze();
        expect(violations.map(({ id, nodes }) => [theme, name, id, nodes[0].html])).toEqual([]);
      }
      await page.keyboard.press('t');
    }
  });
});
