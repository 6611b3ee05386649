import { printable } from '../../display/figure-text';

/** Text as HTML, safe in elements and in quoted attributes; signs that move the cursor are shown by their numbers. @rule RS13 */
export function escaped(text: string): string {
  const shown = text
    .split(/\r\n|\r|\n/)
    .map(printable)
    .join('\n');
  return shown
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}
