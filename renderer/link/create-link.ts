import type { BenchLink } from './bench-link';
import { createBrowserLink } from './browser-link';
import { createDesktopLink, type DesktopBench } from './desktop-link';

/** The link of whichever shell the page runs in. */
export function createLink(): BenchLink {
  const { evendialBench } = window as Window & { readonly evendialBench?: DesktopBench };
  return evendialBench ? createDesktopLink(evendialBench) : createBrowserLink();
}
