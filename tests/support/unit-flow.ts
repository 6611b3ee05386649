import { copyFileSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import type { ShellForFlow } from './bench-flow';
import { putPhotos, waitForRest } from './bench-page';
import { darkPhoto, smallPhoto } from './small-photo';

/** The reference, its lamp-off photo and three trials, in the order in which they are taken. */
async function photosOfAnEvening(folder: string): Promise<string[]> {
  const place = (name: string): string => path.join(folder, name);
  return [
    await smallPhoto('t60-filament.jpg', place('filament.jpg')),
    await darkPhoto('t60-filament.jpg', place('IMG_0002.jpg')),
    await smallPhoto('t60-warm-white-bare.jpg', place('bare.jpg')),
    await smallPhoto('t60-warm-white-diffuser.jpg', place('paper.jpg')),
    await smallPhoto('t60-warm-white-shade.jpg', place('tape.jpg')),
  ];
}

const figureIn = async (place: Locator): Promise<string> =>
  (await place.locator('.plus-minus').first().innerText()).replace(/\s+/g, '');

async function savedWord(page: Page): Promise<string> {
  await page.locator('.save-state', { hasText: /^\s*saved\s*$/ }).waitFor();
  return page.locator('.save-state').innerText();
}

/**
 * A unit from its first photos to its sheet, the same in every shell.
 *
 * @param whyNot  why it is not walked here; null: it is
 */
export function testUnitFlow(shell: ShellForFlow, whyNot: string | null = null): void {
  const skipped = whyNot === null ? '' : ` (skipped: ${whyNot})`;
  it.skipIf(whyNot !== null)(
    `[SU12] photos measured first are filed in a new unit, compared, chosen, and stand on a sheet and in a file${skipped}`,
    async () => {
      const page = shell.page();
      await putPhotos(page, await photosOfAnEvening(shell.folder()));
      await page.locator('.strip-card').nth(4).waitFor();
      await waitForRest(page);

      // Measured first, filed later: roles are proposed, and said to the bench as well.
      await page.keyboard.press('f');
      const dialog = page.getByRole('dialog');
      const roles = dialog.locator('.filing-rows tr[data-filing] select');
      await roles.nth(4).waitFor();
      expect(await roles.evaluateAll((all) => all.map((one) => (one as unknown as { value: string }).value))).toEqual([
        'reference',
        'lamp-off',
        'trial',
        'trial',
        'trial',
      ]);
      await dialog.locator('[data-unit-name]').fill('Larkfield T-60, on trial');
      await dialog.getByLabel('Width, by caliper').fill('46');
      await dialog.getByLabel('Height').fill('9');
      await dialog.getByLabel('Trial that paper.jpg shows').fill('Behind paper');
      await dialog.locator('[data-file]').click();
      const card = (trial: string): Locator => page.locator(`[data-trial="${trial}"]`);
      await card('Behind paper').waitFor({ timeout: 120_000 });
      expect(
        await page.locator('.card[data-role]').evaluateAll((all) => all.map((one) => one.getAttribute('data-role'))),
      ).toEqual(['reference', 'lamp-off']);
      expect(await figureIn(card('bare'))).toMatch(/^\d+±\d+$/);

      // One outline is corrected on the bench; the book is told only when it is filed again.
      await page.locator('[data-place="bench"]').click();
      await page.locator('[data-photo="bare.jpg"]').click();
      await page.locator('[data-station="outline"]').click();
      await page.locator('.corner').first().focus();
      await page.keyboard.press('Shift+ArrowRight');
      await waitForRest(page);
      expect(await page.locator('[data-photo="bare.jpg"] .filed').innerText()).toMatch(/^changed since/);
      expect(await page.locator('[data-photo="paper.jpg"] .filed').innerText()).toMatch(/^in the book/);
      await page.locator('[data-station="compare"]').click();
      await page.locator('[data-ranking="evenness"] button').nth(2).waitFor();
      await page.locator('[data-file-away]').click();
      await dialog.locator('[data-file]', { hasText: 'File the photo' }).click();
      await card('bare').waitFor({ timeout: 60_000 });

      // Chosen with a reason, described, undone and done again.
      await card('Behind paper').click();
      await page.getByLabel('Choose it, because').fill('no hot spot left');
      await page.locator('[data-choose]').click();
      await page.locator('.card.chosen[data-trial="Behind paper"]').waitFor();
      await page.getByRole('button', { name: 'Add a lamp' }).click();
      const lamp = page.locator('[data-lamp="lamp 1"]');
      await lamp.focus();
      await page.keyboard.press('Shift+ArrowLeft');
      await page.keyboard.press('ArrowDown');
      await lamp.evaluate((one) => (one as unknown as { blur(): void }).blur());
      await page.locator('.said', { hasText: 'moved to 18,5,10' }).waitFor();
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      await page.locator('[data-lamp="lamp 1"][aria-label*="23 mm across"]').waitFor();
      await page.getByRole('button', { name: 'Redo', exact: true }).click();
      await page.locator('[data-lamp="lamp 1"][aria-label*="18 mm across"]').waitFor();
      await page.locator('[data-view="facts"]').click();
      await page.locator('[data-field="owner"] input').fill('A. Lindqvist');
      await page.locator('[data-field="maker"] input').focus();
      expect(await savedWord(page)).toMatch(/saved/);
      await page.locator('[data-view="timeline"]').click();
      await page.getByText('Chosen: Behind paper').waitFor();
      expect(await page.locator('.revisions').innerText()).toMatch(/Owner: A. Lindqvist/);

      // The sheet is looked at, and kept as PDF.
      await page.locator('[data-view="sheet"]').click();
      const sheet = page.locator('[data-sheet] .sheet');
      await sheet.waitFor({ timeout: 120_000 });
      expect(await sheet.locator('h1').innerText()).toMatch(/Larkfield T-60, on trial/);
      expect(await sheet.locator('image').count()).toBeGreaterThan(2);
      const pdf = await shell.saved(() => page.locator('[data-save-pdf]').click());
      expect(startOf(pdf, 5)).toBe('%PDF-');

      // One file holds all of it; the book that has it already is not given it twice.
      await page.locator('[data-view="windows"]').click();
      await page.getByRole('button', { name: 'Save as one file' }).click();
      const archive = await shell.saved(() => dialog.getByRole('button', { name: 'Write the file' }).click());
      expect(startOf(archive, 2)).toBe('PK');
      await page.getByRole('button', { name: 'Units', exact: true }).click();
      const back = path.join(shell.folder(), 'back.evendial');
      copyFileSync(archive, back);
      await putPhotos(page, [back]);
      await page.locator('.said', { hasText: 'has come into the book' }).waitFor();
      await card('Behind paper').waitFor();
      await page.getByRole('button', { name: 'Units', exact: true }).click();
      await page.locator('[data-search]').fill('lindqvist paper');
      await page.locator('.counted', { hasText: '1 unit with' }).waitFor();
      expect(await page.locator('.unit-row').allInnerTexts()).toEqual([expect.stringContaining('Behind paper')]);
    },
  );
}

/** What a file begins with. */
const startOf = (file: string, length: number): string => readFileSync(file).subarray(0, length).toString('latin1');
