import { describe, expect, it } from 'vitest';
import type { CameraFacts } from '../../../core/contract/readings';
import type { PhotoOnBench } from '../../../renderer/state/bench-state';
import { arranged, photoGroups } from '../../../renderer/state/photo-groups';
import { firstSettings } from '../../../renderer/state/settings';
import { madeUpReading } from '../cli/made-up';

/** A photo as the camera's notes tell of it; null: it has no reading. */
function photo(id: string, camera: Partial<CameraFacts> | null): PhotoOnBench {
  const plain = madeUpReading({ name: id });
  const photos = [{ ...plain.photos[0], camera: { whiteBalance: 'manual' as const, ...camera } }];
  const reading = camera === null ? null : { ...plain, photos, timingMs: { decode: 1, measure: 1 } };
  return { id, name: id, isSample: false, settings: firstSettings, status: { kind: 'measured' }, reading };
}
const at = (time: string, exposureS = 0.1) => ({
  takenAt: `2026-03-01T${time}:00`,
  exposureS,
  fNumber: 4,
  iso: 100,
});

describe('photos of one drop', () => {
  it('[SC33] lie newest first, those of one round and one exposure together, those without a time at the end', () => {
    const drop = [
      photo('a', at('20:00')),
      photo('short', at('20:01', 0.01)),
      photo('b', at('20:02')),
      photo('untold', {}),
      photo('late', at('21:30')),
      photo('failed', null),
    ];
    const order = arranged(drop).map(({ id }) => id);
    expect(order).toEqual(['late', 'b', 'a', 'short', 'untold', 'failed']);
    expect([...order].sort()).toEqual(drop.map(({ id }) => id).sort());
  });

  it('[SC33] begin with their time and exposure; one group alone needs no heading', () => {
    const stack = arranged([
      photo('a', at('20:00')),
      photo('b', at('20:02')),
      photo('dim', at('20:03', 0.5)),
      photo('x', {}),
    ]);
    expect(photoGroups(stack)).toEqual([
      { first: 'dim', words: '20:03, 0.5 s f/4 ISO 100' },
      { first: 'b', words: '20:02, 1/10 s f/4 ISO 100' },
    ]);
    expect(photoGroups([photo('a', at('20:00')), photo('b', at('20:15'))])).toEqual([]);
    expect(photoGroups([photo('a', at('20:00')), photo('b', at('20:21'))])).toHaveLength(2);
    expect(photoGroups([])).toEqual([]);
  });
});
