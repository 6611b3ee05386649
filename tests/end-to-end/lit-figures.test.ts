import { beforeAll, describe, expect, it } from 'vitest';
import { blackDialArrangements as dial } from '../../samples/render/arrangements';
import { samples } from '../../samples/render/sample-list';
import type { LitWindow } from '../../samples/render/index';
import { measureRendered, type ReadAndTrue, type RenderedWindow } from '../support/rendered-windows';

const { camera } = samples.find(({ file }) => file === 't60-black-spot.jpg')!;

/** A bare lamp behind another place of the black dial. */
const spotAt = (xMm: number, yMm: number, zMm = 8, diffuseShare = 0.925): LitWindow => ({
  ...dial.spot,
  lamps: [{ ...dial.spot.lamps[0], xMm, yMm, zMm }],
  box: { diffuseShare },
});

const shown: readonly RenderedWindow[] = [
  { name: 'even', window: dial.even, camera, print: 'auto' },
  {
    name: 'even, unknown tone curve',
    window: dial.even,
    camera: { ...camera, response: { kind: 'contrasty', strength: 0.4 } },
    print: 'light',
  },
  // Seven pixels a mm: the gaps of small figures are closed by the lens.
  { name: 'even, small photo', window: dial.even, camera: { ...camera, widthPx: 1100, heightPx: 330 }, print: 'light' },
  { name: 'behind a figure', window: dial.spot, camera, print: 'auto' },
  { name: 'between figures', window: spotAt(61.2, 5), camera, print: 'light' },
  { name: 'behind the line', window: spotAt(46, 10), camera, print: 'light' },
  { name: 'wide', window: spotAt(66, 8, 14, 0.82), camera, print: 'light' },
  // Dark print, but the lamp is so close that half of the ground is nearly black.
  {
    name: 'half black',
    window: { ...dial.spot, print: 'larkfield-t60', box: { diffuseShare: 0.5 } },
    camera: { ...camera, exposureS: 0.01 },
    print: 'auto',
  },
];
const evenOnes = shown.map(({ name }) => name).filter((name) => name.startsWith('even'));
const spotted = shown.map(({ name }) => name).filter((name) => !name.startsWith('even') && name !== 'half black');

let measured = new Map<string, ReadAndTrue>();
const of = (name: string): ReadAndTrue => measured.get(name)!;

beforeAll(async () => {
  measured = await measureRendered(shown);
}, 300_000);

describe('[RD9] lit figures on black', () => {
  it.each(evenOnes)('[PM8] %s: at least 97', (name) => {
    const { reading } = of(name);
    expect(reading.outline.print).toBe('light');
    expect(reading.evenness.score.value).toBeGreaterThanOrEqual(97);
  });

  it.each(spotted)('%s, twice the light: within 5 points of the light at the figures', (name) => {
    const { reading, truth } = of(name);
    const { value, plusMinus } = reading.evenness.score;
    expect(reading.outline.print).toBe('light');
    expect(truth.figures.score).toBeLessThan(75);
    expect(value).toBeWithin(truth.figures.score, 5);
    expect(value).toBeWithin(truth.figures.score, plusMinus!);
  });

  it.each(spotted)('[SP7] %s: one hot spot, its true centre inside the plus-minus', (name) => {
    const { reading, truth } = of(name);
    const hot = reading.spots.filter(({ kind }) => kind === 'hot');
    expect(reading.spotsReason).toBeUndefined();
    expect(hot).toHaveLength(truth.spots.length);
    const [spot] = hot;
    const [{ xMm, yMm, ratioToGlow, diameterMm }] = truth.spots;
    expect(spot.xMm).toBeWithin(xMm, spot.plusMinusMm);
    expect(spot.yMm).toBeWithin(yMm, spot.plusMinusMm);
    // Smoothed, and compared with the median of the figures, which the lamp lifts a little over that of the window.
    expect(spot.ratioToGlow).toBeLessThan(1.05 * ratioToGlow);
    // Figures leave the size open: half as much again, as ours is taken from ln of light and the truth's from light.
    expect(spot.diameterMm / diameterMm).toBeWithin(1, 0.5);
  });

  it('[SP7] even figures have no spots', () => {
    for (const name of evenOnes) expect(of(name).reading.spots).toEqual([]);
  });

  it('[PM7] neither said nor to be seen which of the two glows: refused, with what to do', () => {
    const { evenness, gates } = of('half black').reading;
    const [undecided] = gates.filter(({ code }) => code === 'PRINT_UNDECIDED');
    expect(undecided.level).toBe('refuse');
    expect(undecided.remedy).toMatch(/state the print/);
    expect(evenness.score.value).toBeNull();
    expect(evenness.score.reason).toBe(undecided.message.replace(/\.$/, ''));
  });
});
