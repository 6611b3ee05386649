import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import type { MeasureJob, PhotoRef } from '../../../core/contract/measure';
import type { DecodedPhoto } from '../../../core/photo/decoded-photo';
import {
  bracketOf,
  doubtfulSteps,
  perhapsBracketOf,
  unusableBracket,
  type Bracket,
} from '../../../core/preparation/bracket-photos';
import { drawDecoded } from '../photo/draw-decoded';

const job = { name: 'try 3' } as MeasureJob;
const ref = (file: string, exposure: PhotoRef['exposure'] = {}): PhotoRef => ({
  file,
  path: `/in/${file}`,
  encoding: 'profile',
  encodingStated: false,
  exposure,
});

type Camera = DecodedPhoto['facts']['camera'];
const camera: Camera = { model: 'K-9', fNumber: 4, iso: 100, whiteBalance: 'manual' };
const photo = (exposureS: number | undefined, more: Partial<Camera> = {}, file = `${exposureS}.jpg`) => ({
  photo: ref(file),
  decoded: drawDecoded(new Uint8Array(12), 2, {
    facts: { camera: { ...camera, ...(exposureS === undefined ? {} : { exposureS }), ...more } },
  }),
});
const bracket = (...photos: ReturnType<typeof photo>[]): Bracket => bracketOf(job, photos);
const three = [photo(0.1), photo(0.2), photo(0.4)];

describe('bracketOf', () => {
  it('[BR6] the middle exposure stands for the series, in whatever order its photos come', () => {
    const { rising, given, middle } = bracket(photo(0.4), photo(0.1), photo(0.2));
    expect(rising.map(({ exposureS }) => exposureS)).toEqual([0.1, 0.2, 0.4]);
    expect(given.map(({ exposureS }) => exposureS)).toEqual([0.4, 0.1, 0.2]);
    expect(middle.photo.file).toBe('0.2.jpg');
  });

  it('[BR7] what is stated stands before what the file says; a photo without time is named with its place', () => {
    const stated = { ...photo(0.1), photo: ref('a.jpg', { exposureS: 0.8 }) };
    expect(bracket(stated, photo(0.2)).given[0].exposureS).toBe(0.8);
    const error = (() => {
      try {
        return bracket(photo(0.1), photo(undefined, {}, 'b.jpg'));
      } catch (thrown) {
        return thrown;
      }
    })();
    expect(error).toBeInstanceOf(AppError);
    expect(error).toMatchObject({ kind: 'usage', code: 'EXPOSURE_UNKNOWN' });
    expect((error as AppError).message).toBe(
      'photo 2 (b.jpg) of the exposure series try 3 does not say its exposure time',
    );
  });
});

describe('perhapsBracketOf', () => {
  it.each([
    ['three different exposure times are a series', three, true],
    ['whether it can be used is judged later', [...three, photo(0.8, { iso: 200 })], true],
    ['two are a shot taken again', [photo(0.1), photo(0.4)], false],
    ['so are three of one exposure time', [photo(0.1), photo(0.1), photo(0.1)], false],
    ['a photo that does not say its time leaves no series', [...three, photo(undefined)], false],
  ])('[BR10] %s', (_, photos, isSeries) => expect(perhapsBracketOf(job, photos) !== null).toBe(isSeries));
});

describe('unusableBracket', () => {
  it('[BR7] three photos 1 EV apart are a series', () => expect(unusableBracket(bracket(...three))).toBeNull());

  it.each([
    ['one photo is too few', [photo(0.1)]],
    ['two photos are too few', [photo(0.1), photo(0.4)]],
    ['the ISO changed', [...three, photo(0.8, { iso: 200 })]],
    ['the f-number changed', [photo(0.1, { fNumber: 5.6 }), photo(0.2), photo(0.4)]],
    ['the white balance changed', [...three, photo(0.8, { whiteBalance: 'auto' })]],
    ['different cameras', [...three, photo(0.8, { model: 'K-10' })]],
    ['only 2 different exposure times', [photo(0.1), photo(0.104), photo(0.4)]],
    ['differ by 1.2 EV in all', [photo(0.1), photo(0.15), photo(0.23)]],
    [
      'differ in size',
      [
        three[0],
        three[1],
        { ...three[2], decoded: { ...three[2].decoded, facts: { ...three[2].decoded.facts, widthPx: 8 } } },
      ],
    ],
    [
      'is a table',
      [three[0], three[1], { ...three[2], decoded: { ...three[2].decoded, linear: new Float32Array(12) } }],
    ],
  ])('[BR7] %s', (reason, photos) => expect(unusableBracket(bracket(...photos))).toContain(reason));
});

describe('doubtfulSteps', () => {
  it('[BR7] steps up to 2 EV are well, 3 EV are doubted', () => {
    expect(doubtfulSteps(bracket(...three))).toBeNull();
    expect(doubtfulSteps(bracket(photo(0.1), photo(0.4), photo(1.6)))).toBeNull();
    expect(doubtfulSteps(bracket(photo(0.1), photo(0.4), photo(3.2)))).toMatch(/up to 3\.0 EV apart/);
  });
});
