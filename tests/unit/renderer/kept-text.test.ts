import { beforeEach, describe, expect, it } from 'vitest';
import { figure } from '../../../core/contract/figure';
import { Bench } from '../../../renderer/state/bench';
import type { PhotoOnBench } from '../../../renderer/state/bench-state';
import { Filings, type Filing } from '../../../renderer/state/filings';
import { KeptSettings } from '../../../renderer/state/kept-settings';
import { Plans, type Plan } from '../../../renderer/state/plans';
import { firstSettings } from '../../../renderer/state/settings';
import { MemoryStorage, OneUnitHost } from '../../support/one-unit-host';

const filing: Filing = {
  unit: 'u1',
  unitName: 'T-60',
  window: 'Scale',
  role: 'trial',
  trial: 'Frosted',
  asked: '{}',
};
const plan: Plan = {
  id: 'p1',
  photo: 'x',
  photoName: 'a.jpg',
  after: 'x',
  what: 'lamp 1: 4 mm back',
  evenness: figure(71, 6.5),
  filedIn: { unit: 'u1', unitName: 'T-60', trial: 'Trial 3' },
};
const photo: PhotoOnBench = {
  id: 'x',
  name: 'a.jpg',
  isSample: false,
  settings: { ...firstSettings, room: 'dark', window: { ...firstSettings.window, cornersPx: [[1, 2], [9, 2], [9, 7], [1, 7]] } }, // prettier-ignore
  status: { kind: 'waiting' },
  reading: null,
};

let storage: MemoryStorage;
beforeEach(() => {
  storage = new MemoryStorage();
  new KeptSettings(storage).keep([photo]);
  new Filings(storage).put([['x', filing]]);
  new Plans(storage).put(plan);
});
const loaded = () => ({
  settings: new KeptSettings(storage),
  filings: new Filings(storage),
  plans: new Plans(storage),
});
const damaged = (): boolean[] => Object.values(loaded()).map(({ isDamaged }) => isDamaged);

describe('what the page keeps of its photos while its tab lives', () => {
  it('[SC34] is there again when the page is loaded again; nothing was kept: nothing is said', () => {
    const { settings, filings, plans } = loaded();
    expect(settings.of('x')).toEqual(photo.settings);
    expect(filings.of('x')).toEqual(filing);
    expect(plans.all.value).toEqual([plan]);
    expect(damaged()).toEqual([false, false, false]);
    storage.texts.clear();
    expect(damaged()).toEqual([false, false, false]);
    expect(storage.texts.size).toBe(0);
  });

  it('[SC34] text that cannot be read is put aside and said once; the page begins all the same', () => {
    for (const key of ['evendial-settings', 'evendial-filings', 'evendial-plans']) {
      for (const text of ['{"x', 'null', '7', key === 'evendial-plans' ? '{}' : '[]']) {
        storage.texts.set(key, text);
        expect(damaged().filter(Boolean), `${key}: ${text}`).toEqual([true]);
        expect(storage.texts.get(`${key}-damaged`)).toBe(text);
        expect(damaged(), `${key}: ${text}, again`).toEqual([false, false, false]);
      }
    }
  });

  it('[SC34] one item that cannot be read does not take the others along', () => {
    const among = (key: string, bad: unknown): void => {
      const kept: unknown = JSON.parse(storage.texts.get(key)!);
      storage.texts.set(key, JSON.stringify(Array.isArray(kept) ? [bad, ...(kept as unknown[])] : { bad, ...(kept as object) })); // prettier-ignore
    };
    const window = { ...firstSettings.window, cornersPx: [[1, 2], 'here'] };
    for (const bad of [{ ...photo.settings, window: null }, { ...photo.settings, window }, null]) {
      among('evendial-settings', bad);
      const { settings } = loaded();
      expect([settings.isDamaged, settings.of('bad'), settings.of('x')]).toEqual([true, null, photo.settings]);
    }
    for (const bad of [{ ...filing, trial: 4 }, { ...filing, unitName: undefined }, 'x']) {
      among('evendial-filings', bad);
      const { filings } = loaded();
      expect([filings.isDamaged, filings.all.value]).toEqual([true, { x: filing }]);
    }
    for (const bad of [
      { ...plan, evenness: { value: '71' } },
      { ...plan, what: 1 },
      { ...plan, filedIn: {} },
    ]) {
      among('evendial-plans', bad);
      const { plans } = loaded();
      expect([plans.isDamaged, plans.all.value]).toEqual([true, [plan]]);
    }
  });

  it('[SC14] photos come back in the order in which they stood, those that arrived meanwhile on top', () => {
    const stack = ['c', 'a', 'b'].map((id) => ({ ...photo, id }));
    new KeptSettings(storage).keep(stack);
    const told = ['a', 'b', 'c', 'new'].map((id) => ({ id }));
    expect(new KeptSettings(storage).inOrder(told).map(({ id }) => id)).toEqual(['new', 'c', 'a', 'b']);
  });

  it('[SC34] the bench says what is lost until it is put away', () => {
    const bench = new Bench(new OneUnitHost().link, new KeptSettings(storage));
    bench.tellLost([]);
    expect(bench.state.value.lost).toBeNull();
    bench.tellLost(['planned changes']);
    expect(bench.state.value.lost).toMatchObject({ code: 'KEPT_BENCH_DAMAGED' });
    expect(bench.state.value.lost?.message).toMatch(/planned changes/);
    bench.dismissLost();
    expect(bench.state.value.lost).toBeNull();
  });
});
