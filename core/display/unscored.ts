import type { Reading } from '../contract/readings';

/** What inside the outline is no glow, in a word or two: a black dial's ground when the figures glow, else the print. */
export function unscoredPart({ outline }: Pick<Reading, 'outline'>): string {
  return outline.print === 'light' ? 'black ground' : 'print';
}
