import { describe, expect, it } from 'vitest';
import type { MappedWindow } from '../../../core/contract/measure';
import { dimmerPanel, luminancePanel } from '../../../core/display/panels';
import { madeUpMaps, madeUpReading } from '../cli/made-up';

const maps = madeUpMaps(30, 12);
const entry = (times: number): MappedWindow => {
  const glowLuminance = { ...maps.glowLuminance, values: maps.glowLuminance.values.map((value) => times * value) };
  const filledLuminance = {
    ...maps.filledLuminance,
    values: maps.filledLuminance.values.map((value) => times * value),
  };
  return { role: 'trial', reading: madeUpReading(), maps: { ...maps, glowLuminance, filledLuminance } };
};
const colours = (panel: ReturnType<typeof luminancePanel>): unknown[] =>
  Array.from({ length: panel.width * panel.height }, (_, i) => panel.cellAt(i)?.colour ?? null);

describe('dimmerPanel', () => {
  it('[MP4] shows a window over the glow of a brighter one: as far down the scale as its share says, whatever its own exposure', () => {
    const dimmer = dimmerPanel(entry(7), 0.5);
    // The same light at half of it, over the median of the whole: what both photos on one scale would show.
    const own = luminancePanel(entry(1));
    const at = dimmer.contours!.field.values.findIndex((value) => Number.isFinite(value));
    expect(dimmer.contours!.field.values[at]).toBeWithin(own.contours!.field.values[at] - Math.log(2), 1e-5); // 32-bit planes
    expect(colours(dimmer)).not.toEqual(colours(own));
    expect(dimmer.scale).toBe(own.scale);
  });

  it('[MP4] is the window’s own picture where it has all of the glow', () => {
    expect(colours(dimmerPanel(entry(1), 1))).toEqual(colours(luminancePanel(entry(1))));
  });
});
