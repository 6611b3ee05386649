import type { BenchLink } from './bench-link';
import { createBrowserLink } from './browser-link';

/** The page's way to its host: the desktop window's verbs where they are, else the bench that served the page. */
export function createLink(): BenchLink {
  return createBrowserLink();
}
