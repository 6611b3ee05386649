import AxeBuilder from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import { launchChromium, startBench, type RunningBench } from './bench-page';

const viewport = { width: 1280, height: 800 };

/** A bench with a browser before it, for all tests of a file: engines stay warm from one page to the next. */
export class BrowserBench {
  private readonly defects: string[] = [];
  private page: Page | null = null;

  private constructor(
    readonly bench: RunningBench,
    readonly browser: Browser,
  ) {}

  /** @param words  more of the command line of `evendial serve` */
  static async start(...words: string[]): Promise<BrowserBench> {
    const browser = await launchChromium();
    return new BrowserBench(await startBench(...words), browser);
  }

  /** A page that keeps nothing of what was done in it before, at its first screen, on a bench without photos. */
  async newPage(): Promise<Page> {
    if (this.page) await this.emptied(this.page);
    else this.page = await this.openPage();
    await this.page.getByRole('button', { name: 'Open photos' }).waitFor();
    return this.page;
  }

  private async emptied(page: Page): Promise<void> {
    await this.bench.clear();
    await page.setViewportSize(viewport);
    // The page puts its token away: it is given it again.
    await page.evaluate((token) => {
      localStorage.clear();
      sessionStorage.clear();
      history.replaceState(null, '', `/${token}`);
    }, new URL(this.bench.address).hash);
    await page.reload();
  }

  /** One for all tests: a browser takes longer to make another one than the page to load. */
  private async openPage(): Promise<Page> {
    const context = await this.browser.newContext({ viewport });
    const page = await context.newPage();
    page.setDefaultTimeout(120_000);
    page.on('pageerror', (error) => this.defects.push(String(error)));
    await page.goto(this.bench.address);
    return page;
  }

  /** After each test: nothing may have gone wrong in the page. */
  expectNoDefect(): void {
    expect(this.defects.splice(0)).toEqual([]);
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.bench.stop();
    this.expectNoDefect();
  }
}

/** What the page downloads while something happens, in a file. */
export async function downloaded(page: Page, file: string, act: () => Promise<void>): Promise<string> {
  const download = page.waitForEvent('download');
  await act();
  await (await download).saveAs(file);
  return file;
}

/** The rules of axe that look at colours: all that a theme changes. */
export const themeRules = ['color-contrast', 'link-in-text-block'];

/**
 * Axe for a page without frames of other origins: it need not open a second page for each look, and of what is in order one
 * example a rule will do. Both took three quarters of the time.
 */
export function axeOn(page: Page): AxeBuilder {
  return new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });
}

/**
 * What axe finds serious or critical on the page as it stands.
 *
 * @param where  stands before each finding
 * @param look  'colours': a screen that was looked at in the other theme, from which it differs in nothing else
 */
export async function seriousFindings(page: Page, where: string, look: 'all' | 'colours' = 'all'): Promise<string[]> {
  const axe = look === 'all' ? axeOn(page) : axeOn(page).withRules(themeRules);
  const { violations } = await axe.analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${where}: ${id} ${nodes[0].html}`);
}
