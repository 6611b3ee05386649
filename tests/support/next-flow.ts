import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { putPhotos, samplePhoto, waitForRest } from './bench-page';
import type { ShellForFlow } from './bench-flow';
import { pdfText, readPdf } from './pdf-reader';

/** From a reading to a planned change and its check against the next photo, the same in every shell. */
export function testNextFlow(shell: ShellForFlow): void {
  it('[SC20] suggestions, a lamp moved by keys, the forecast kept as a plan, a shade printed, the next photo held against the plan', async () => {
    const page = shell.page();
    await putPhotos(page, [samplePhoto('t60-small.jpg')]);
    await page.locator('.strip-card').first().waitFor();
    await waitForRest(page);
    await page.keyboard.press('5');
    await page.locator('[data-suggestion]').first().waitFor();
    const gains = await page.locator('[data-suggestion] .gain').allInnerTexts();
    for (const gain of gains) expect(gain.replace(/\s+/g, ' ')).toMatch(/\+ \d+ ?± ?\d+ points of evenness/);

    expect((await page.locator('main').innerText()).match(/Unplug/g)).toHaveLength(1);
    expect(await page.locator('[data-suggestion] .small-caution').count()).toBe(gains.length);

    const slider = page.getByLabel('Nearer, back');
    await slider.waitFor();
    await slider.focus();
    for (let press = 0; press < 8; press++) await page.keyboard.press('ArrowRight');
    const keep = page.locator('[data-plan-it]:not([disabled])');
    await keep.waitFor();
    expect(await page.locator('[data-figure="Evenness, forecast"] .large').innerText()).toMatch(/\d+\s*±\s*\d+/);
    expect(await page.locator('.strip').count()).toBe(2);
    await keep.click();
    expect(await page.locator('[data-plan]').innerText()).toMatch(/lamp 1: 4 mm back/);

    await page.locator('[data-tool="shade"]').click();
    await page.getByLabel('Gap between shade and scale').fill('1.5');
    const print = page.locator('[data-print="pdf"]:not([disabled])');
    await print.waitFor();
    const pdf = readFileSync(await shell.saved(() => print.click()));
    const [sheet] = readPdf(pdf);
    // an A4 page, exact to a hundredth of a point
    expect(Math.min(sheet.widthPt, sheet.heightPt)).toBeWithin((210 / 25.4) * 72, 0.01);
    expect(pdfText(pdf)).toContain('For a gap of 1.5 mm');

    await putPhotos(page, [samplePhoto('../sets/photos/sweep-28-mm.jpg')]);
    await page.locator('.strip-card').nth(1).waitFor();
    await waitForRest(page);
    await page.locator('[data-photo="t60-small.jpg"]').click();
    await page.keyboard.press('5');
    const line = page.locator('[data-planned-measured]');
    await line.waitFor();
    expect(await line.innerText()).toMatch(/planned: forecast \d+ ± \d+, measured \d+ ± \d+\.$/);
  });
}
