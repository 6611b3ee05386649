import { describe, expect, it } from 'vitest';
import { namedAsInRecord, photoNamer } from '../../../core/book/photo-names';
import type { MeasureResult } from '../../../core/contract/measure';
import { photoEntry } from '../../support/unit-records';

const [a, b, c, d] = ['a', 'b', 'c', 'd'].map((digit) => digit.repeat(64));
const photos = [
  photoEntry('a', { name: 'try 1.jpg' }),
  photoEntry('b', { name: 'DSC 7.jpg' }),
  photoEntry('c', { name: 'DSC 7.jpg', role: 'lamp-off' }),
  photoEntry('a', { name: 'try 1.jpg', role: 'print-photo' }),
];

describe('photoNamer', () => {
  const named = photoNamer(photos);

  it('[BK29] names an original as its file was called, with its folder and without, also for two purposes', () => {
    expect(named(`photos/${a}.jpg`)).toBe('try 1.jpg');
    expect(named(`The lamp-off photo (photos/${a}.jpg): ${a}.jpg does not exist.`)).toBe(
      'The lamp-off photo (try 1.jpg): try 1.jpg does not exist.',
    );
  });

  it('[BK29] tells two of one name apart by the beginning of their checksums', () => {
    expect([b, c].map((sum) => named(`photos/${sum}.jpg`))).toEqual(['DSC 7.jpg (bbbbbbbb)', 'DSC 7.jpg (cccccccc)']);
  });

  it('[BK29] leaves what the record does not know', () => {
    expect(named(`photos/${d}.jpg of photos/other.jpg`)).toBe(`photos/${d}.jpg of photos/other.jpg`);
  });
});

it('[BK29] a photo that cannot be measured is named in its message too', () => {
  const error = { code: 'PHOTO_MISSING', message: `${a}.jpg does not exist.`, remedy: 'Look for it.' };
  const failed = { file: `photos/${a}.jpg`, error };
  const result: MeasureResult = { windows: [{ role: 'trial', name: 'Bare', window: null, kind: 'photo', failed }] };
  expect(namedAsInRecord(result, photos).windows).toEqual([
    {
      role: 'trial',
      name: 'Bare',
      window: null,
      kind: 'photo',
      failed: { file: 'try 1.jpg', error: { ...error, message: 'try 1.jpg does not exist.' } },
    },
  ]);
});
