import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { testBenchFlow, type ShellForFlow } from '../support/bench-flow';
import { testUnitFlow } from '../support/unit-flow';
import { printedEvenness, toAnEmptyBench, waitForRest } from '../support/bench-page';
import { isLongRun } from '../support/long-run';
import { pdfText } from '../support/pdf-reader';
import { openDisplay, rootFlags, type Display } from '../support/desktop';

const program = path.resolve('out/package/linux-unpacked/evendial');
const why = existsSync(program)
  ? existsSync('/usr/bin/Xvfb')
    ? null
    : 'Xvfb is not installed'
  : "there is no package: 'npm run package' makes it";

/**
 * What the page hands over to be saved. The window's own dialog is out of reach: its inspector is off for good, and nobody sits
 * before the screen.
 */
async function handedOver(page: Page, act: () => Promise<void>): Promise<Buffer> {
  await page.evaluate(() => {
    const kept = globalThis as { blob?: Blob };
    delete kept.blob;
    const address = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob: Blob) => {
      kept.blob = blob;
      return address(blob);
    };
    HTMLAnchorElement.prototype.click = () => undefined;
  });
  await act();
  await page.waitForFunction(() => 'blob' in globalThis);
  return Buffer.from(
    await page.evaluate(async () => {
      const { blob } = globalThis as { blob?: Blob };
      return blob ? [...new Uint8Array(await blob.arrayBuffer())] : [];
    }),
  );
}

const skipped = why === null ? '' : ` (skipped: ${why})`;

describe.skipIf(why !== null)(`the packaged program${skipped}`, { timeout: 300_000 }, () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-packaged-test-'));
  let display: Display;
  let running: ChildProcess;
  let browser: Browser;
  let page: Page;

  // One start for all: each lays out the book and warms an engine up.
  beforeAll(async () => {
    display = await openDisplay();
    // Its inspector is off for good, so that the page is reached by the browser's own door, which any runtime has.
    running = spawn(program, [...rootFlags, '--remote-debugging-port=0', `--user-data-dir=${folder}`], {
      // Its book must not be the user's.
      env: { ...process.env, DISPLAY: display.name, XDG_DATA_HOME: folder },
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    const address = await new Promise<string>((resolve, reject) => {
      let said = '';
      running.once('exit', (code) => reject(new Error(`it ended with code ${code}: ${said}`)));
      running.stderr!.on('data', (text: Buffer) => {
        said += text.toString();
        const found = /DevTools listening on (ws:\S+)/.exec(said);
        if (found) resolve(found[1]);
      });
    });
    browser = await chromium.connectOverCDP(address, { noDefaults: true });
    const [context] = browser.contexts();
    page = context.pages()[0] ?? (await context.waitForEvent('page'));
    await page.waitForURL('app://main/');
    await page.waitForLoadState();
  });
  afterAll(async () => {
    const ended = new Promise((resolve) => running?.once('exit', resolve));
    await browser?.close();
    running?.kill();
    await ended;
    display?.close();
    rmSync(folder, { recursive: true, force: true });
  });
  beforeEach(() => toAnEmptyBench(page));

  it('[BE13] carries no native decoder that would clash with its runtime', () => {
    const unpacked = path.join(path.dirname(program), 'resources');
    const files = readdirSync(unpacked, { recursive: true }).map(String);
    expect(files.filter((name) => /sharp.*\.(node|so)/.test(name))).toEqual([]);
  });

  const shell: ShellForFlow = {
    page: () => page,
    folder: () => folder,
    async saved(act) {
      const file = path.join(folder, 'saved-reading');
      writeFileSync(file, await handedOver(page, act));
      return file;
    },
  };
  it('[BE13] one click measures a sample from inside its archive; a unit of the book stands on its sheet, which is kept as PDF', async () => {
    expect(page.url()).toBe('app://main/');
    await page
      .getByRole('button', { name: /Bare warm-white LEDs/ })
      .first()
      .click();
    await waitForRest(page);
    // 27 on the command line; the page's own tests compare figures, this one only shows that there is one.
    const [, score] = /^(\d+)±\d+$/.exec((await printedEvenness(page)) ?? '') ?? [];
    expect(Number(score)).toBeCloseTo(27, -1);
    await page.getByRole('button', { name: 'Units', exact: true }).click();
    // The meter has half as many photos to be measured for its sheet as the tuner.
    await page.locator('[data-unit^="larkfield-m-4"]').first().click();
    await page.locator('[data-view="sheet"]').click();
    const sheet = page.locator('[data-sheet] .sheet');
    await sheet.waitFor({ timeout: 120_000 });
    expect(await sheet.locator('h1').innerText()).toMatch(/Larkfield M-4/);
    const pdf = readFileSync(await shell.saved(() => page.locator('[data-save-pdf]').click()));
    expect(pdfText(pdf)).toContain('Larkfield M-4');
  });

  const whyNot = isLongRun ? null : 'walked in the window; with the package in the long run only';
  testBenchFlow(shell, whyNot);
  testUnitFlow(shell, whyNot);
});
