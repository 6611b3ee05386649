import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { MeasureAsked } from '../../../core/contract/bench';
import type { Gate } from '../../../core/contract/gates';
import type { BenchLink } from '../../../renderer/link/bench-link';
import { Bench } from '../../../renderer/state/bench';
import { KeptSettings } from '../../../renderer/state/kept-settings';
import { settingsOfOtherWindow, withSize, withWindow } from '../../../renderer/state/settings';
import { MemoryStorage, rest } from '../../support/one-unit-host';
import { madeUpMaps, madeUpReading } from '../cli/made-up';

const sizeMm = { widthMm: 92, heightMm: 18 };
const differs = (value: number): Gate => ({ code: 'ASPECT_DIFFERS', level: 'warn', message: 'Another shape.', remedy: 'Look.', value, affects: [] }); // prettier-ignore

/** A bench whose photos are found in a shape so far off the stated size; without a size nothing differs. */
async function benchWith(aspectError: number, cornersFrom: 'search' | 'given') {
  const asked: MeasureAsked[] = [];
  const link: BenchLink = {
    call: async (verb, asks) => {
      if (verb === 'hello') return { version: '', shell: 'browser', samples: [], archives: [], photos: [] } as never;
      if (verb === 'watchRead') return { watch: null, photos: [], upTo: 0 } as never;
      if (verb !== 'measure') return null as never;
      const one = asks as unknown as MeasureAsked;
      asked.push(one);
      const outline = { ...madeUpReading().outline, cornersFrom };
      const gates = one.window.sizeMm === null ? [] : [differs(aspectError)];
      return { reading: madeUpReading({ outline, gates }), maps: madeUpMaps(92, 18) } as never;
    },
    addPhotos: () => Promise.resolve([]),
    onEvent: () => () => undefined,
  };
  const bench = new Bench(link, new KeptSettings(new MemoryStorage()));
  await bench.start();
  const lay = async (id: string): Promise<void> => {
    bench.layArrived([{ id, name: `${id}.jpg`, isSample: false, sizeBytes: 1 }]);
    bench.measure(id, true);
    await rest();
  };
  await lay('scale');
  bench.follow('scale');
  bench.changeSettings('scale', 'size', (settings) => withWindow(settings, { sizeMm }));
  await rest();
  return { bench, asked, lay };
}

/** What a page has for its thumbnails. */
class PictureOfPage {
  readonly data: Uint8ClampedArray;
  constructor(
    readonly width: number,
    readonly height: number,
  ) {
    this.data = new Uint8ClampedArray(4 * width * height);
  }
}
beforeAll(() => vi.stubGlobal('ImageData', PictureOfPage));
afterAll(() => vi.unstubAllGlobals());

describe('a photo that takes over the size of the photo in view', () => {
  it('[SC39] is measured again without it where its window has another shape', async () => {
    const { bench, asked, lay } = await benchWith(0.8, 'search');
    bench.changeSettings('scale', 'reference', (settings) => ({ ...settings, reference: 'scale' }));
    await lay('meter');
    const ofMeter = asked.filter(({ photo }) => photo === 'meter');
    expect(ofMeter.map(({ window }) => window.sizeMm)).toEqual([sizeMm, null]);
    expect(bench.photo('meter')).toMatchObject({ status: { kind: 'measured' }, settings: { reference: null, window: { sizeMm: null } } }); // prettier-ignore
    // What a person says stands, whatever its shape.
    bench.changeSettings('meter', 'size', (settings) => withWindow(settings, { sizeMm }));
    await rest();
    expect(bench.photo('meter')?.settings.window.sizeMm).toEqual(sizeMm);
    expect(bench.photo('scale')?.settings.window.sizeMm).toEqual(sizeMm);
  });

  it('[SC40] tells whose size it is, also of the photo after the next, until it is said of the photo itself or taken back', async () => {
    const { bench, lay } = await benchWith(0, 'search');
    await lay('second');
    bench.follow('second');
    await lay('third');
    const sizes = (): unknown[] =>
      ['scale', 'second', 'third'].map((id) => {
        const { sizeFrom, window } = bench.photo(id)!.settings;
        return [sizeFrom, window.sizeMm?.widthMm ?? null];
      });
    expect(sizes()).toEqual([[null, 92], ['scale', 92], ['scale', 92]]); // prettier-ignore
    bench.changeSettings('second', 'another window', settingsOfOtherWindow);
    bench.changeSettings('third', 'size', (settings) => withSize(settings, { widthMm: 46, heightMm: 9 }, sizeMm));
    expect(sizes()).toEqual([[null, 92], [null, null], [null, 46]]); // prettier-ignore
    bench.undo();
    bench.undo();
    expect(sizes()).toEqual([[null, 92], ['scale', 92], ['scale', 92]]); // prettier-ignore
    await rest();
  });

  it.each([
    ['as far off as a search or a tilt may be', 0.2, 'search'],
    ['with corners of its own', 0.8, 'given'],
  ] as const)('[SC39] keeps it %s', async (_, aspectError, cornersFrom) => {
    const { bench, asked, lay } = await benchWith(aspectError, cornersFrom);
    await lay('again');
    expect(asked.filter(({ photo }) => photo === 'again')).toHaveLength(1);
    expect(bench.photo('again')?.settings.window.sizeMm).toEqual(sizeMm);
  });
});
