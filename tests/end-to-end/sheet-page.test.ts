import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sheetPage } from '../../core/node/sheet/html-file';
import { sheetContent } from '../../core/sheet/make-content';
import { chromiumFile, launchChromium, whyNoChromium } from '../support/bench-page';
import { plainPictures } from '../support/sheet-pictures';
import { larkfieldSource } from '../support/sheet-source';

describe.skipIf(!chromiumFile)(`the record sheet as a page${whyNoChromium}`, { timeout: 60_000 }, () => {
  let folder: string;
  let browser: Browser;
  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'evendial-page-'));
    const content = sheetContent(larkfieldSource({ notes: 'W'.repeat(300) }));
    writeFileSync(path.join(folder, 'sheet.html'), sheetPage(content, plainPictures(content)));
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  it('[RS13] fetches nothing, has no finding of axe, and is no wider than a narrow window', async () => {
    // Without the page's own policy axe may be brought in; that it holds is seen by what the page asks for.
    const context = await browser.newContext({ bypassCSP: true, viewport: { width: 420, height: 900 } });
    const page = await context.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    const address = pathToFileURL(path.join(folder, 'sheet.html')).href;
    await page.goto(address);
    expect(asked.filter((url) => !url.startsWith('data:'))).toEqual([address]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(420);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
  });
});
