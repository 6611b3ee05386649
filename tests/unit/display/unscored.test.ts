import { describe, expect, it } from 'vitest';
import { createMask, createPlane } from '../../../core/base/plane';
import type { MappedWindow } from '../../../core/contract/measure';
import { printPanel } from '../../../core/display/panels';
import { unscoredPart } from '../../../core/display/unscored';

/** Two cells, of which the second is covered; neither is print that was found. */
function windowWith(print: 'dark' | 'light'): MappedWindow {
  const covered = createMask(2, 1);
  covered.values[1] = 1;
  const none = createMask(2, 1);
  const maps = { redPrint: none, darkPrint: none, coveredByPrint: covered, glowLuminance: createPlane(1, 1) };
  const window = { width: 2, height: 1, rgb: new Float32Array(6).fill(0.3) };
  return { maps: { ...maps, window }, reading: { outline: { print } } } as unknown as MappedWindow;
}

describe('what is no glow', () => {
  it('[MP4] is print, or the black ground of lit figures', () => {
    expect(unscoredPart(windowWith('dark').reading)).toBe('print');
    expect(unscoredPart(windowWith('light').reading)).toBe('black ground');
  });

  it('[MP4] lit figures stand out from their ground in the picture of the print', () => {
    const brightness = (print: 'dark' | 'light') =>
      [0, 1].map((i) => printPanel(windowWith(print)).cellAt(i)?.colour[0]);
    expect(brightness('dark')).toEqual([196, 196]);
    expect(brightness('light')).toEqual([196, 24]);
    expect(printPanel(windowWith('light')).title).toMatch(/lit figures/i);
  });
});
