import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Places } from '../../../../renderer/state/place';
import {
  firstPlace,
  keptOnPlan,
  marginMm,
  movedByKey,
  nextName,
  placeText,
  planBox,
} from '../../../../renderer/views/unit/plan-places';
import {
  readingOf,
  referencePhoto,
  shownTrial,
  trialPhoto,
  trialsOf,
  whenWords,
} from '../../../../renderer/views/unit/unit-facts';
import { rowsInView } from '../../../../renderer/views/units/visible-rows';
import { larkfieldUnit } from '../../../support/unit-records';

const scale = { name: 'scale', widthMm: 92, heightMm: 18 };

describe('lamps on the plan', () => {
  it('[SU5] keys move by half a millimetre, with Shift by five, and back again', () => {
    const place = [23, 9, 8] as const;
    expect(movedByKey(place, 'ArrowRight', false)).toEqual([23.5, 9, 8]);
    expect(movedByKey(place, 'ArrowUp', true)).toEqual([23, 4, 8]);
    expect(movedByKey(movedByKey(place, 'ArrowLeft', true)!, 'ArrowRight', true)).toEqual(place);
    expect(movedByKey(place, 'Tab', false)).toBeNull();
  });

  it('[SU5] the plan is as high as its window, ruler and lamps, wherever a lamp may lie', () => {
    const boxOf = (...down: number[]) =>
      planBox(
        scale,
        down.map((y) => ({ place: [40, y, 8] as const, bodyMm: 4 })),
        2,
      );
    const [left, top, width, height] = boxOf(9);
    expect([left, width]).toEqual([-marginMm, scale.widthMm + 2 * marginMm]);
    // Half a line above, the ruler and its figures below.
    expect([top, height]).toEqual([-1, expect.closeTo(1 + scale.heightMm + 5.4, 9)]);
    expect(boxOf()).toEqual(boxOf(9));
    for (const y of [-marginMm, scale.heightMm + marginMm]) {
      const [, from, , all] = boxOf(9, y);
      if (y < 0) expect(from).toBeLessThanOrEqual(y - 3.2 - 2); // grip, and the name's line
      expect(from + all).toBeGreaterThanOrEqual(y + 3.2);
    }
    expect(planBox(scale, [{ place: null, bodyMm: 4 }], 2)).toEqual(boxOf());
  });

  it('[SU5] a place is kept on the plan, on half millimetres, and its depth is left alone', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        (x, y) => {
          const [across, down, behind] = keptOnPlan([x, y, 7.25], scale);
          expect([across * 2, down * 2].every(Number.isInteger)).toBe(true);
          expect(across).toBeGreaterThanOrEqual(-marginMm);
          expect(across).toBeLessThanOrEqual(92 + marginMm);
          expect(down).toBeLessThanOrEqual(18 + marginMm);
          expect(behind).toBe(7.25);
        },
      ),
    );
    expect(placeText(firstPlace(scale))).toBe('46,9,10');
    expect(nextName('lamp', [{ name: 'lamp 2' }])).toBe('lamp 3');
  });
});

describe('a unit on the screen', () => {
  const unit = larkfieldUnit();

  it('[SU6] shows trials newest first, the chosen one in the list, and the photo added last for each', () => {
    expect(trialsOf(unit, 'scale').map(({ name }) => name)).toEqual(['Frosted', 'Bare, 8 mm']);
    expect(shownTrial(unit, 'scale')?.name).toBe('Frosted');
    expect(shownTrial({ ...unit, chosen: undefined, photos: [] } as unknown as typeof unit, 'scale')).toBeNull();
    expect(trialPhoto(unit, 'scale', 'Bare, 8 mm')?.sha256[0]).toBe('b');
    expect(trialPhoto(unit, 'meter', 'Bare, 8 mm')).toBeNull();
    expect(referencePhoto(unit, 'meter')).toBeNull();
    expect(readingOf(unit, 'scale', null)).toBeNull();
    const oneWindow = { ...unit, trials: unit.trials.map((trial) => ({ ...trial, windows: ['meter'] })) };
    expect(trialsOf(oneWindow, 'scale')).toEqual([]);
  });

  it('[SU6] says when in words, by the days of this place', () => {
    const at = (text: string): Date => new Date(text);
    const now = at('2026-05-31T00:10:00');
    expect(whenWords(at('2026-05-31T00:05:00').toISOString(), now)).toBe('today, 0:05');
    expect(whenWords(at('2026-05-30T23:59:00').toISOString(), now)).toBe('yesterday, 23:59');
    expect(whenWords(at('2026-05-03T12:00:00').toISOString(), now)).toBe('3 May');
    expect(whenWords(at('2025-12-31T12:00:00').toISOString(), now)).toBe('31 December 2025');
  });
});

describe('a long list', () => {
  it('[SU7] draws the rows in view and a few beside them, never more than there are', () => {
    expect(rowsInView(0, 800, 100, 2000)).toEqual({ from: 0, to: 14 });
    expect(rowsInView(-100_000, 800, 100, 2000)).toEqual({ from: 994, to: 1014 });
    expect(rowsInView(-199_500, 800, 100, 2000)).toEqual({ from: 1989, to: 2000 });
    expect(rowsInView(900, 800, 100, 2000)).toEqual({ from: 0, to: 5 });
    fc.assert(
      fc.property(fc.integer({ min: -300_000, max: 3000 }), fc.integer({ min: 0, max: 3000 }), (top, count) => {
        const { from, to } = rowsInView(top, 800, 116, count);
        expect(from).toBeGreaterThanOrEqual(0);
        expect(to).toBeLessThanOrEqual(count);
        expect(to - from).toBeLessThan(24);
      }),
    );
  });
});

describe('places', () => {
  it('[SU8] begin with the book, and come back when the page is loaded again', () => {
    const stored = new Map<string, string>();
    const storage = {
      getItem: (key: string) => stored.get(key) ?? null,
      setItem: (key: string, text: string) => void stored.set(key, text),
    };
    const places = new Places(storage);
    expect(places.now.value).toEqual({ at: 'units' });
    places.goTo({ at: 'unit', unit: 'larkfield-t-60-1', view: 'sheet' });
    expect(new Places(storage).now.value).toEqual({ at: 'unit', unit: 'larkfield-t-60-1', view: 'sheet' });
    stored.set('evendial-place', 'unit nowhere x');
    expect(new Places(storage).now.value).toEqual({ at: 'units' });
  });
});
