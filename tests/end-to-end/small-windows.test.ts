import { beforeAll, describe, expect, it } from 'vitest';
import { smallArrangements as small } from '../../samples/render/arrangements';
import { samples } from '../../samples/render/sample-list';
import type { LitWindow } from '../../samples/render/index';
import { measureRendered, type ReadAndTrue, type RenderedWindow } from '../support/rendered-windows';

const { camera: closeCamera } = samples.find(({ file }) => file === 't60-small-windows.jpg')!;
const camera = {
  ...closeCamera,
  widthPx: 560,
  heightPx: 300,
  pose: { ...closeCamera.pose, framedMm: 40, aimMm: [7, 3] as const },
};

/** A window with its lamp elsewhere; near lamps make small spots, which print may hide. */
function lampAt(window: LitWindow, xMm: number, yMm: number, zMm: number, diffuseShare = 0.8): LitWindow {
  return { ...window, lamps: [{ ...window.lamps[0], xMm, yMm, zMm }], box: { diffuseShare } };
}

const { tuning, band } = small;
const shown: readonly RenderedWindow[] = [
  ['16 x 7 mm, even', lampAt(tuning, 8, 3.5, 7, 1)],
  ['16 x 7 mm, spot between print', tuning],
  ['16 x 7 mm, spot behind the figures', lampAt(tuning, 8, 1.9, 2)],
  ['16 x 7 mm, spot behind the letters', lampAt(tuning, 8, 5.4, 2, 0.85)],
  ['16 x 7 mm, lamp at one end', lampAt(tuning, 1, 3.5, 5, 0.6)],
  ['12 x 5 mm, even', lampAt(band, 6, 2.5, 5, 1)],
  ['12 x 5 mm, leaning', band],
  ['12 x 5 mm, spot behind the word', lampAt(band, 6, 2.2, 1.8, 0.85)],
  ['12 x 5 mm, lamp at one end', lampAt(band, 1, 2.5, 4, 0.5)],
].map(([name, window]) => ({ name: name as string, window: window as LitWindow, camera, print: 'dark' as const }));

let measured = new Map<string, ReadAndTrue>();

beforeAll(async () => {
  measured = await measureRendered(shown);
}, 300_000);

describe('[UN8] small windows', () => {
  it.each(shown.map(({ name }) => name))(
    '%s: the truth of the whole light inside the plus-minus, or refused',
    (name) => {
      const { reading, truth } = measured.get(name)!;
      const { value, plusMinus, reason } = reading.evenness.score;
      if (value === null) expect(reason).toMatch(/^print hides too much of this small window/);
      else expect(value).toBeWithin(truth.unprintedFigures.score, plusMinus!);
    },
  );

  it('what print leaves to be seen still stands: the ends and the mean', () => {
    for (const { reading, truth } of measured.values()) {
      const { leftOverRight, topOverBottom } = reading.evenness;
      expect(leftOverRight.value).not.toBeNull();
      expect(topOverBottom.value).not.toBeNull();
      expect(reading.luminance.glowMean.value).toBeGreaterThan(0);
      // Print that is denser on one side leans the halves; the lamp at one end of 12 mm is read 7 % too even.
      expect(leftOverRight.value! / truth.figures.leftOverRight).toBeWithin(1, 0.08);
    }
  });

  it('a spot that letters hide is never praised as even', () => {
    const { reading, truth } = measured.get('16 x 7 mm, spot behind the letters')!;
    expect(truth.unprintedFigures.score).toBeLessThan(50);
    expect(reading.evenness.score.value).toBeNull();
    expect(reading.evenness.words).toMatch(/^no verdict/);
  });
});
