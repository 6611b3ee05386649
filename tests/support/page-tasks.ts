import type { Page } from 'playwright-core';

interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  /** Thread time, microseconds. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** The tasks are in the timeline; `toplevel` tells them again, with so much beside them that reading it took as long as the test. */
const categories = ['disabled-by-default-devtools.timeline', '__metadata'];

/**
 * The longest task of the page's own thread while something happens, in milliseconds of processor time: a task that
 * waits for the processor, because other tests have it, is not longer for that.
 */
export async function longestPageTaskMs(page: Page, act: () => Promise<void>): Promise<number> {
  const browser = page.context().browser();
  if (!browser) throw new Error('a page of a browser is needed');
  await browser.startTracing(page, { categories });
  try {
    await act();
  } catch (error) {
    await browser.stopTracing();
    throw error;
  }
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] };
  const pages = new Set(
    traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  const tasks = traceEvents.filter(
    ({ name, pid, tid, tdur }) => /RunTask$/.test(name) && tdur !== undefined && pages.has(`${pid} ${tid}`),
  );
  if (tasks.length === 0) throw new Error('the browser recorded no task of the page');
  return Math.max(...tasks.map(({ tdur }) => tdur ?? 0)) / 1000;
}
