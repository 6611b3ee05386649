import { expect, it } from 'vitest';
import type { BenchEvent } from '../../../core/contract/bench';
import { CallFailed, type BenchLink } from '../../../renderer/link/bench-link';
import { Bench } from '../../../renderer/state/bench';
import { KeptSettings } from '../../../renderer/state/kept-settings';
import { MemoryStorage, rest } from '../../support/one-unit-host';

const stopped = { kind: 'engine-stopped', code: 'ENGINE_STOPPED', message: 'Stopped.', remedy: 'Again.' } as const;

it('[SC38] an engine that stopped is said until it is put away; what it was measuring is measured again, and nothing else', async () => {
  let tell: (event: BenchEvent) => void = () => undefined;
  const measured: string[] = [];
  const refused = { ...stopped, kind: 'photo', code: 'PHOTO_DAMAGED' } as const;
  const answers: Readonly<Record<string, (asks: { photo: string }) => unknown>> = {
    hello: () => ({
      version: '',
      shell: 'browser',
      samples: [],
      archives: [],
      photos: ['lost', 'damaged'].map((id) => ({ id, name: `${id}.jpg`, isSample: false })),
    }),
    watchRead: () => ({ watch: null, photos: [], upTo: 0 }),
    measure: ({ photo }) => {
      measured.push(photo);
      throw new CallFailed(photo === 'lost' ? stopped : refused);
    },
  };
  const link: BenchLink = {
    call: async (verb, asks) => (answers[verb] ?? (() => null))(asks as { photo: string }) as never,
    addPhotos: () => Promise.resolve([]),
    onEvent: (listener) => {
      tell = listener;
      return () => undefined;
    },
  };
  const bench = new Bench(link, new KeptSettings(new MemoryStorage()));
  await bench.start();
  await rest();
  expect(measured.splice(0).sort()).toEqual(['damaged', 'lost']);
  const says = (): void => tell({ type: 'engine-stopped', message: stopped.message });
  says();
  expect(bench.state.value.engineStopped).toBe(stopped.message);
  bench.dismissStopped();
  expect(bench.state.value.engineStopped).toBeNull();
  says();
  bench.measureLost();
  await rest();
  expect([measured, bench.state.value.engineStopped]).toEqual([['lost'], null]);
});
