import { cpSync, mkdtempSync, readdirSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { chromiumFile, whyNoChromium } from '../support/bench-page';
import { BrowserBench, downloaded, seriousFindings } from '../support/browser-bench';
import { writeUnit } from '../support/many-units';
import { longestPageTaskMs } from '../support/page-tasks';
import { testUnitFlow } from '../support/unit-flow';
import { zipContents } from '../support/zip-contents';

/** Presses Tab until something of this kind has the focus. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let n = 0; n < 60; n++) {
    await page.keyboard.press('Tab');
    if ((await page.locator(`${selector}:focus`).count()) > 0) return;
  }
  throw new Error(`Tab does not reach ${selector}`);
}

describe.skipIf(!chromiumFile)(`units in a browser${whyNoChromium}`, { timeout: 300_000 }, () => {
  let browserBench: BrowserBench;
  let page: Page;
  let folder: string;

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'evendial-units-'));
    browserBench = await BrowserBench.start('--book', path.join(folder, 'book'));
  });
  afterAll(async () => {
    await browserBench.close();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(async () => {
    page = await browserBench.newPage();
  });
  afterEach(() => browserBench.expectNoDefect());

  it('[SU13] no serious finding of axe on any screen of the book, in both themes', async () => {
    const found: string[] = [];
    const look = async (where: string): Promise<void> => {
      const seen = where.endsWith('light') ? 'colours' : 'all';
      found.push(...(await seriousFindings(page, where, seen)));
    };
    const sample = page.locator('[data-unit^="larkfield-t-60"]').first();
    await sample.waitFor();
    await look('units, dark');
    await page.keyboard.press('n');
    await page.getByRole('dialog').getByLabel('Begin like').waitFor();
    await look('new unit');
    await page.keyboard.press('Escape');
    await sample.click();
    await page.locator('[data-trial]').first().click();
    await page.locator('[data-lamp]').first().waitFor();
    for (const theme of ['dark', 'light']) {
      await look(`trial, ${theme}`);
      await page.keyboard.press('t');
    }
    await page.locator('[data-view="facts"]').click();
    await page.locator('.record-group summary').nth(1).click();
    await look('facts, dark');
    await page.locator('[data-view="timeline"]').click();
    await page.locator('.revisions').waitFor();
    await look('time line, dark');
    await page.keyboard.press('t');
    await look('time line, light');
    await page.locator('[data-view="facts"]').click();
    await look('facts, light');
    await page.getByRole('button', { name: 'Units', exact: true }).click();
    await sample.waitFor();
    await look('units, light');
    expect(found).toEqual([]);
  });

  it('[SU14] by the keyboard alone: search, unit, card, lamp, view, and back', async () => {
    await page.locator('[data-unit^="larkfield-t-60"]').first().waitFor();
    await page.keyboard.press('/');
    await page.keyboard.type('bleached straw');
    await page.locator('.counted', { hasText: '1 unit with' }).waitFor();
    await tabTo(page, '.unit-row');
    await page.keyboard.press('Enter');
    await page.locator('[data-trial]').first().waitFor();
    await tabTo(page, '.card');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    const lamp = page.locator('[data-lamp]').first();
    await lamp.waitFor();
    const place = await lamp.getAttribute('aria-label');
    await tabTo(page, '[data-lamp]');
    await page.keyboard.press('ArrowLeft');
    expect(await lamp.getAttribute('aria-label')).not.toBe(place);
    // At once, before the move by keys is saved by itself: it is the change that is taken back.
    await page.keyboard.press('Control+z');
    await page.locator('.said', { hasText: 'taken back' }).waitFor();
    await page.locator(`[data-lamp][aria-label="${place}"]`).waitFor();
    await page.keyboard.press('3');
    await page.locator('.revisions').waitFor();
    expect(await page.locator('.revisions').innerText()).toMatch(/As it was in revision/);
    await page.keyboard.press('Escape');
    await page.locator('.unit-row').first().waitFor();
  });

  it('[SU19] a trial that gets another name stays in view, with the focus and the text of the field that is typed in next', async () => {
    await page.locator('[data-unit^="larkfield-t-60"]').first().click();
    await page.locator('[data-trial]').first().click();
    const side = page.locator('.unit-side');
    await side.getByLabel('Name').fill('Called otherwise');
    const diffuser = side.locator('[data-field$="].diffuser"] :is(input, textarea)');
    await diffuser.fill('silk');
    await side.getByRole('heading', { name: 'Called otherwise' }).waitFor();
    await page.keyboard.press('End');
    await page.keyboard.type(', two layers');
    expect(await diffuser.inputValue()).toBe('silk, two layers');
    await page.keyboard.press('Tab');
    await page.locator('.said', { hasText: 'Saved: Diffuser' }).waitFor();
    expect(await diffuser.inputValue()).toBe('silk, two layers');
    expect(await page.locator('[data-plan="Called otherwise"]').count()).toBe(1);
    expect(await page.locator('[data-trial="Called otherwise"][aria-pressed="true"]').count()).toBe(1);
  });

  it('[SU9] changes that were not saved the last time are offered on the list of units; unreadable ones are told of', async () => {
    const edits = [{ kind: 'set', field: 'owner', text: 'the same owner' }];
    const unit = await page.locator('[data-unit^="larkfield-t-60"]').first().getAttribute('data-unit');
    const asked = { unit, unitName: 'Larkfield T-60', what: 'Owner', edits };
    const keep = (text: string): Promise<void> =>
      page.evaluate((kept) => localStorage.setItem('evendial-unsaved', kept), text);
    await keep(`${JSON.stringify([asked])}]`);
    await page.reload();
    await page.getByRole('alert').filter({ hasText: 'cannot be read any more' }).waitFor();
    await page.getByRole('button', { name: 'Put away' }).click();
    await keep(JSON.stringify([asked]));
    await page.reload();
    const bar = page.locator('.units [data-not-saved]');
    await bar.waitFor();
    expect(await seriousFindings(page, 'units, not saved')).toEqual([]);
    await bar.getByRole('button', { name: 'Save again' }).click();
    await page.locator('.said', { hasText: 'Saved: Owner' }).waitFor();
    expect(await bar.count()).toBe(0);
    expect(await page.evaluate(() => localStorage.getItem('evendial-unsaved'))).toBeNull();
  });

  it('[SU21] of a unit without a whole revision what is left is told, once, and saved', async () => {
    const sample = await page.locator('[data-unit^="larkfield-m-4"]').first().getAttribute('data-unit');
    const unit = path.join(folder, 'book', 'units', sample ?? '');
    const records = path.join(folder, 'records');
    cpSync(unit, records, { recursive: true });
    for (const name of readdirSync(path.join(unit, 'revisions'))) truncateSync(path.join(unit, 'revisions', name), 40);
    truncateSync(path.join(unit, 'unit.json'), 40);
    await page.reload();
    await page.locator(`[data-unit="${sample}"]`).click();
    await page.locator('[data-repair]').click();
    const failed = page.locator('.book-error');
    await failed.locator('h1', { hasText: 'No revision of' }).waitFor();
    expect(await failed.innerText()).toContain('All 3 of its photos are whole.');
    expect((await failed.innerText()).match(/No revision of/g)).toHaveLength(1);
    expect(await page.locator('[data-repair]').count()).toBe(0);
    expect(await seriousFindings(page, 'a unit without a whole revision')).toEqual([]);
    const file = await downloaded(page, path.join(folder, 'left.zip'), () => page.locator('[data-leftovers]').click());
    await failed.locator('[role="status"]', { hasText: 'left.zip holds 3 whole photos' }).waitFor();
    const saved = Object.keys(await zipContents(file)).filter((name) => name.startsWith('photos/'));
    expect(saved).toHaveLength(3);
    // The folder from a copy of the book, as it says.
    rmSync(unit, { recursive: true });
    cpSync(records, unit, { recursive: true });
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.locator('[data-trial]').first().waitFor();
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

describe.skipIf(!chromiumFile)(`a book of 2000 units in a browser${whyNoChromium}`, { timeout: 300_000 }, () => {
  const count = 2000;
  let browserBench: BrowserBench;
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-many-units-'));

  beforeAll(async () => {
    for (let i = 0; i < count; i++) writeUnit(folder, i);
    browserBench = await BrowserBench.start('--book', folder);
  }, 120_000);
  afterAll(async () => {
    await browserBench.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('[SU15] is scrolled and searched without the page being held up', async () => {
    const page = await browserBench.newPage();
    await page.locator('.unit-row').first().waitFor();
    const longest = await longestPageTaskMs(page, async () => {
      await page.mouse.move(600, 400);
      for (let i = 0; i < 20; i++) await page.mouse.wheel(0, 4000);
      await page.locator('[data-search]').pressSequentially('lot 1999', { delay: 40 });
      await page.locator('[data-unit="unit-1999"]').waitFor();
    });
    expect(await page.locator('.unit-row').count()).toBe(1);
    expect(longest).toBeLessThan(100);
    await page.locator('[data-search]').fill('');
    await page.locator('.counted', { hasText: `${count} units` }).waitFor();
    // Few rows are drawn; the last one is reached by one key.
    await page.locator('.unit-row').first().focus();
    await page.keyboard.press('End');
    await page.locator(`[data-row="${count - 1}"]:focus`).waitFor();
    expect(await page.locator('.unit-row').count()).toBeLessThan(40);
  });
});
