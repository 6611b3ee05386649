import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import type { BenchVerb, Hello } from '../../core/contract/bench';
import { unpackValue } from '../../core/contract/packed';

const chromiumPaths = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
export const chromiumFile = chromiumPaths.find((file) => existsSync(file)) ?? null;
/** Appended to a group's title, so that the report says why it did not run. */
export const whyNoChromium = chromiumFile ? '' : ' (skipped: no Chromium on this machine)';

export interface RunningBench {
  readonly address: string;
  /** Takes every photo off, so that the next page finds none; engines and what they keep go on. */
  clear(): Promise<void>;
  stop(): Promise<void>;
}

/** Starts `evendial serve` on a free port and waits for the address that it prints. @param more  words of its command line */
export async function startBench(...more: readonly string[]): Promise<RunningBench> {
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-page-test-'));
  const book = more.includes('--book') ? [] : ['--book', path.join(folder, 'book')];
  const words = ['dist/evendial.cjs', 'serve', '--port', '0', ...book, ...more];
  const child: ChildProcess = spawn(process.execPath, words);
  const address = await new Promise<string>((resolve, reject) => {
    let printed = '';
    child.stdout?.on('data', (part: Buffer) => {
      printed += part.toString();
      const found = /http:\/\/127\.0\.0\.1:\d+\/#\S+/.exec(printed);
      if (found) resolve(found[0]);
    });
    child.once('exit', (code) => reject(new Error(`evendial serve ended with ${code}: ${printed}`)));
  });
  const { origin, hash } = new URL(address);
  const call = async (verb: BenchVerb, asks: unknown): Promise<unknown> => {
    const answer = await fetch(`${origin}/call/${verb}`, {
      method: 'POST',
      headers: { 'x-evendial-token': hash.slice(1), 'content-type': 'application/json' },
      body: JSON.stringify({ call: `test-${verb}`, asks }),
    });
    if (!answer.ok) throw new Error(`${verb}: ${await answer.text()}`);
    return unpackValue(new Uint8Array(await answer.arrayBuffer()));
  };
  const clear = async (): Promise<void> => {
    const { photos } = (await call('hello', {})) as Hello;
    await call('removePhotos', { photos: photos.map(({ id }) => id) });
  };
  const stop = (): Promise<void> =>
    new Promise((resolve) => {
      child.once('exit', () => {
        rmSync(folder, { recursive: true, force: true });
        resolve();
      });
      child.kill('SIGTERM');
    });
  return { address, clear, stop };
}

export function launchChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: chromiumFile ?? '',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  });
}

export const samplePhoto = (name: string): string => path.resolve('samples/photos', name);

/** Puts files on the bench as the open dialog does. */
export async function putPhotos(page: Page, files: readonly string[]): Promise<void> {
  await page.setInputFiles('[data-chooser]', [...files]);
}

/** From the book, where a page begins, to the bench. */
export async function toTheBench(page: Page): Promise<void> {
  await page.locator('[data-place="bench"]').click();
}

interface WindowBench {
  hello(call: string, asks: object): Promise<{ answer?: unknown }>;
  removePhotos(call: string, asks: object): Promise<unknown>;
}

/** In the window: a page that keeps nothing of what was done in it before, on a bench without photos. */
export async function toAnEmptyBench(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const bench = (globalThis as unknown as { evendialBench: WindowBench }).evendialBench;
    const { photos } = (await bench.hello('clearing', {})).answer as Hello;
    await bench.removePhotos('clearing', { photos: photos.map(({ id }) => id) });
    localStorage.clear();
  });
  await page.reload();
  await page.getByRole('button', { name: 'Open photos' }).waitFor();
  await toTheBench(page);
}

/** States the size of the window of the photo in view, on the station Outline; photos that are put on later take it over. */
export async function stateSize(page: Page, widthMm: number, heightMm: number): Promise<void> {
  const sides = [
    ['Width, by caliper', widthMm],
    ['Height', heightMm],
  ] as const;
  for (const [label, mm] of sides) {
    const field = page.locator('label.field', { hasText: label }).locator('input').first();
    await field.fill(String(mm));
    await field.press('Tab');
  }
  await waitForRest(page);
}

/** Waits until nothing is being measured. Two cores may be busy with other tests. */
export async function waitForRest(page: Page): Promise<void> {
  const said = page.locator('.foot .said');
  const giveUpAt = Date.now() + 120_000;
  // Twice, since a change may have been made whose measuring has not been asked for yet.
  for (let quiet = 0; quiet < 2; quiet = /photos measured/.test(await said.innerText()) ? 0 : quiet + 1) {
    if (Date.now() > giveUpAt) throw new Error(`still measuring: ${await said.innerText()}`);
    await page.waitForTimeout(100);
  }
}

/** The evenness in the verdict column as printed: `76±6`, or null while there is none. */
export async function printedEvenness(page: Page): Promise<string | null> {
  const figure = page.locator('[data-figure="Evenness"] .large');
  return (await figure.count()) === 0 ? null : (await figure.innerText()).replace(/\s+/g, '');
}
