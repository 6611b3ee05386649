import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chromiumFile, samplePhoto, stateSize, toTheBench, waitForRest, whyNoChromium } from '../support/bench-page';
import { axeOn, BrowserBench } from '../support/browser-bench';
import { smallPhoto } from '../support/small-photo';

describe.skipIf(!chromiumFile)(`the watched folder in a browser${whyNoChromium}`, { timeout: 300_000 }, () => {
  let browserBench: BrowserBench;
  let page: Page;
  const base = mkdtempSync(path.join(tmpdir(), 'evendial-watch-page-'));
  const folder = path.join(base, 'Camera');
  /** The samples at half their size: every photo is measured again when the reference is named, and with the next ones. */
  const taken = [
    't60-filament.jpg',
    't60-warm-white-bare.jpg',
    't60-warm-white-diffuser.jpg',
    't60-amber-bare.jpg',
    'm4-filament.jpg',
    't60-room-lit.jpg',
    't60-room-lit-lamps-off.jpg',
  ];

  beforeAll(async () => {
    mkdirSync(folder);
    for (const sample of taken) await smallPhoto(sample, path.join(base, sample));
    copyFileSync(samplePhoto('t60-small.jpg'), path.join(folder, 'before.jpg'));
    browserBench = await BrowserBench.start('--watch', folder);
    page = await browserBench.newPage();
    await toTheBench(page);
  });
  afterAll(async () => {
    await browserBench.close();
    rmSync(base, { recursive: true, force: true });
  });

  const bar = (kind: string) => page.locator(`[data-watch="${kind}"]`);
  const line = () => page.locator('.watch-line').innerText();
  const arrive = (sample: string, name: string): void => copyFileSync(path.join(base, sample), path.join(folder, name));
  /** Waits for the line about a photo. */
  const told = async (kind: string, name: string): Promise<void> => bar(kind).filter({ hasText: name }).waitFor();

  it('[SC30] says better or worse than the best so far of each photo that arrives, without a click', async () => {
    await bar('ready').waitFor();
    expect(await page.locator('.strip-card').count()).toBe(0);
    arrive('t60-filament.jpg', 'IMG_1.jpg');
    await told('first', 'IMG_1.jpg');
    await page.keyboard.press('r');
    await waitForRest(page);
    // Half as wide as it is, so that it is measured sooner; later photos of the window take it over.
    await page.locator('[data-station="outline"]').click();
    await stateSize(page, 46, 9);
    await page.locator('[data-station="reading"]').click();
    arrive('t60-warm-white-bare.jpg', 'IMG_2.jpg');
    await told('first', 'IMG_2.jpg');
    arrive('t60-warm-white-diffuser.jpg', 'IMG_3.jpg');
    await told('better', 'IMG_3.jpg');
    expect(await line()).toMatch(/Better\s*\+\d+ ± \d+/);
    // Against the reference that was named: the camera tells colours beside it.
    expect(await page.locator('.watch-second').innerText()).toMatch(
      /best so far \d+ ± \d+ \(IMG_2.jpg\).*Colour distance \w+/,
    );
    arrive('t60-amber-bare.jpg', 'IMG_4.jpg');
    await told('worse', 'IMG_4.jpg');
    expect(await line()).toMatch(/Worse\s*−\d+ ± \d+/);
    // The outline is that of the photo before, laid on its print: it can be seen and changed.
    await page.locator('[data-station="outline"]').click();
    const corner = await page.locator('.corner').first().getAttribute('aria-label');
    expect(Number(/x ([\d.]+)/.exec(corner ?? '')?.[1])).toBeWithin(170.9, 0.5);
    await page.locator('[data-station="reading"]').click();
  });

  it('[SC30] counts the same photo again, says that a window is not known, and that the folder is gone and back', async () => {
    arrive('t60-amber-bare.jpg', 'IMG_4 copy.jpg');
    writeFileSync(path.join(folder, 'clip.mp4'), 'x');
    await page.getByText('4 photos, 1 came again, 1 other file left alone').waitFor();
    arrive('m4-filament.jpg', 'IMG_5.jpg');
    await told('not-carried', 'IMG_5.jpg');
    expect(await page.locator('.watch-second').innerText()).toMatch(
      /print of this window was not found.*outline of IMG_4.jpg/,
    );
    renameSync(folder, `${folder}-away`);
    await bar('gone').waitFor();
    renameSync(`${folder}-away`, folder);
    await told('not-carried', 'IMG_5.jpg');
  });

  it('[SC31] proposes a dark photo as lamp-off photo; one key takes it, and that can be undone', async () => {
    arrive('t60-room-lit.jpg', 'IMG_6.jpg');
    await page.locator('.watch-second', { hasText: 'IMG_6.jpg' }).waitFor();
    arrive('t60-room-lit-lamps-off.jpg', 'IMG_7.jpg');
    await told('dark', 'IMG_7.jpg');
    await page.keyboard.press('l');
    await waitForRest(page);
    await page.locator('[data-photo="IMG_6.jpg"]').click();
    await page.locator('[data-station="photos"]').click();
    const lampOff = page.locator('label', { hasText: 'Lamp-off photo' }).locator('select');
    const nameOf = (): Promise<string> =>
      lampOff.evaluate((select: HTMLSelectElement) => select.selectedOptions[0].text);
    expect(await nameOf()).toBe('IMG_7.jpg');
    await page.keyboard.press('Control+z');
    await expect.poll(nameOf).toBe('none');
    await waitForRest(page);
  });

  it('[SC30] nothing of the watch is lost when the page is loaded again; no finding of axe in either theme', async () => {
    const names = (): Promise<string[]> =>
      page.locator('[data-photo]').evaluateAll((cards) => cards.map((card) => card.getAttribute('data-photo') ?? ''));
    const before = (await names()).sort();
    expect(before).toHaveLength(7);
    await page.reload();
    await toTheBench(page);
    await page.locator('.strip-card').nth(6).waitFor();
    await waitForRest(page);
    expect((await names()).sort()).toEqual(before);
    for (const theme of ['dark', 'light']) {
      const { violations } = await axeOn(page).include('.watch').analyze();
      expect(violations.map(({ id, nodes }) => [theme, id, nodes[0].html])).toEqual([]);
      await page.keyboard.press('t');
    }
    const text = readFileSync(samplePhoto('t60-clipped.jpg')).subarray(0, 20_000);
    writeFileSync(path.join(folder, 'cut.jpg'), text);
    await page.getByText('One cannot be read').waitFor();
    await page.getByRole('button', { name: 'Stop watching' }).click();
    await page.locator('[data-watch]').waitFor({ state: 'detached' });
    expect(await names()).toHaveLength(7);
  });
});
