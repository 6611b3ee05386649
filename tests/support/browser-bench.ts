import AxeBuilder from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import { launchChromium, startBench, type RunningBench } from './bench-page';

/** A bench with a browser before it, for all tests of a file: engines stay warm from one page to the next. */
export class BrowserBench {
  private readonly defects: string[] = [];
  private open: Page | null = null;

  private constructor(
    readonly bench: RunningBench,
    readonly browser: Browser,
  ) {}

  /** @param words  more of the command line of `evendial serve` */
  static async start(...words: string[]): Promise<BrowserBench> {
    const browser = await launchChromium();
    return new BrowserBench(await startBench(...words), browser);
  }

  /** A page that keeps nothing of an earlier one, at its first screen. */
  async newPage(): Promise<Page> {
    const context = await this.browser.newContext({ viewport: { width: 1280, height: 800 } });
    const page = await context.newPage();
    page.setDefaultTimeout(120_000);
    page.on('pageerror', (error) => this.defects.push(String(error)));
    await page.goto(this.bench.address);
    await page.getByRole('button', { name: 'Open photos' }).waitFor();
    this.open = page;
    return page;
  }

  /** Closes the page and takes its photos off the bench. Nothing may have gone wrong in it. */
  async leavePage(): Promise<void> {
    await this.open?.context().close();
    this.open = null;
    await this.bench.clear();
    expect(this.defects.splice(0)).toEqual([]);
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.bench.stop();
    expect(this.defects).toEqual([]);
  }
}

/** What the page downloads while something happens, in a file. */
export async function downloaded(page: Page, file: string, act: () => Promise<void>): Promise<string> {
  const download = page.waitForEvent('download');
  await act();
  await (await download).saveAs(file);
  return file;
}

/**
 * Axe for a page without frames of other origins: it need not open a second page for each look, and of what is in order one
 * example a rule will do. Both took three quarters of the time.
 */
export function axeOn(page: Page): AxeBuilder {
  return new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });
}

/** What axe finds serious or critical on the page as it stands. @param where  stands before each finding */
export async function seriousFindings(page: Page, where: string): Promise<string[]> {
  const { violations } = await axeOn(page).analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${where}: ${id} ${nodes[0].html}`);
}
