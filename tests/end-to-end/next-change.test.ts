import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { lampCautions } from '../../core/advice/cautions';
import { chromiumFile, putPhotos, samplePhoto, toTheBench, waitForRest, whyNoChromium } from '../support/bench-page';
import { BrowserBench, downloaded, seriousFindings } from '../support/browser-bench';
import { testNextFlow } from '../support/next-flow';

describe.skipIf(!chromiumFile)(`the station Next change${whyNoChromium}`, { timeout: 300_000 }, () => {
  let browserBench: BrowserBench;
  let page: Page;
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-next-'));

  beforeAll(async () => {
    browserBench = await BrowserBench.start();
  });
  afterAll(async () => {
    await browserBench.close();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(async () => {
    page = await browserBench.newPage();
    await toTheBench(page);
  });
  afterEach(() => browserBench.leavePage());

  testNextFlow({
    page: () => page,
    folder: () => folder,
    saved: (act) => downloaded(page, path.join(folder, 'saved-shade'), act),
  });

  it('[SC21] resistors follow the form, cautions stand in full, and what is wrong is marked and said', async () => {
    await putPhotos(page, [samplePhoto('t60-small.jpg')]);
    await page.locator('.strip-card').first().waitFor();
    await waitForRest(page);
    await page.keyboard.press('5');
    const table = page.locator('[data-resistors]');
    await table.waitFor();
    // the worked example of the design: 1.0 and 2.2 kilo-ohm at 12 V and 10 mA
    expect((await table.locator('td b').allInnerTexts()).join()).toBe('1000,2200');
    const cautions = await page.locator('[data-mix-cautions] li').allInnerTexts();
    expect(cautions).toEqual(lampCautions);
    for (const words of ['can kill', 'AC or DC', 'as a signal', 'Fuse', 'hot parts', 'do not stare'])
      expect(cautions.join(' ')).toContain(words);
    const volts = page.getByLabel('Volts with the old lamp in');
    await volts.fill('3.2');
    await page.locator('[data-refused="SUPPLY_TOO_LOW"]').waitFor();
    expect((await table.locator('td b').allInnerTexts()).join()).toBe('–,–');
    await volts.fill('a lot');
    expect(await page.locator('.lamp-mix [role="alert"]').innerText()).toBe('1 to 60 V');
    await volts.fill('12');
    await page.getByLabel('Full viewing angle').first().fill('');
    await page.locator('[data-refused="LIGHT_UNKNOWN"]').waitFor();
  });

  it('[SC22] no serious finding of axe in both themes and at 200 %; a refused forecast says what to do instead', async () => {
    await putPhotos(page, [samplePhoto('t60-warm-white-shade.jpg')]);
    await page.locator('.strip-card').first().waitFor();
    await waitForRest(page);
    await page.keyboard.press('5');
    await page.locator('[data-suggestion], [data-note]').first().waitFor();
    await page.locator('[data-resistors]').waitFor();
    const refused = page.locator('.try-body [data-refused]');
    await refused.waitFor();
    expect(await refused.innerText()).toMatch(/Photograph each lamp lit alone/);
    for (const theme of ['dark', 'light']) {
      await page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
      expect(await seriousFindings(page, theme)).toEqual([]);
    }
    await page.setViewportSize({ width: 640, height: 800 });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(640);
  });
});
