import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect } from 'vitest';
import { chromiumFile, launchChromium, startBench, whyNoChromium, type RunningBench } from '../support/bench-page';
import { testUnitFlow } from '../support/unit-flow';

describe.skipIf(!chromiumFile)(`units in a browser${whyNoChromium}`, { timeout: 300_000 }, () => {
  let bench: RunningBench;
  let browser: Browser;
  let page: Page;
  let folder: string;
  const defects: string[] = [];

  beforeAll(async () => {
    browser = await launchChromium();
    bench = await startBench();
    folder = mkdtempSync(path.join(tmpdir(), 'evendial-units-'));
  });
  afterAll(async () => {
    await browser.close();
    await bench.stop();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(async () => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    page = await context.newPage();
    page.setDefaultTimeout(60_000);
    defects.length = 0;
    page.on('pageerror', (error) => defects.push(String(error)));
    await page.goto(bench.address);
    await page.getByRole('button', { name: 'Open photos' }).waitFor();
  });
  afterEach(async () => {
    await page.context().close();
    await bench.clear();
    expect(defects).toEqual([]);
  });

  testUnitFlow({
    page: () => page,
    folder: () => folder,
    async saved(act) {
      const download = page.waitForEvent('download');
      await act();
      const done = await download;
      const file = path.join(folder, done.suggestedFilename());
      await done.saveAs(file);
      return file;
    },
  });
});
