import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gateCodes } from '../../../core/contract/gates';
import { emptyHistory, redone, undone, withEdit, type Edit } from '../../../renderer/state/history';
import { LatestKept } from '../../../renderer/state/latest-kept';
import { withoutPhoto, withSize, withWindow } from '../../../renderer/state/settings';
import { WorkQueue } from '../../../renderer/state/work-queue';
import { photoChecks } from '../../../renderer/views/photos/checks';
import type { ReadingSettings } from '../../../renderer/state/bench-state';

const settingsOf = (viewingDistanceMm: number): ReadingSettings => ({
  window: { cornersPx: null, sizeMm: null, shape: null, print: 'auto', leaveOut: [], paintedRed: [], paintedDark: [] },
  light: 'unknown',
  room: 'unknown',
  viewingDistanceMm,
  helpers: { lampOff: null, flatField: null, printPhoto: null },
  reference: null,
  sizeFrom: null,
});
const edit = (before: number, after: number): Edit => ({
  what: `to ${after}`,
  changes: [{ photo: 'p', before: settingsOf(before), after: settingsOf(after) }],
});

describe('history', () => {
  it('[SC1] undoing every edit and doing all again ends where it was, whatever the edits', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 999 }), { minLength: 1, maxLength: 30 }), (distances) => {
        let history = emptyHistory;
        distances.forEach((after, i) => (history = withEdit(history, edit(distances[i - 1] ?? 500, after))));
        const full = history;
        const seen: number[] = [];
        for (let step = undone(history); step; step = undone(history)) {
          history = step.history;
          seen.push(step.edit.changes[0].before.viewingDistanceMm);
        }
        expect(seen).toEqual([500, ...distances.slice(0, -1)].reverse());
        for (let step = redone(history); step; step = redone(history)) history = step.history;
        expect(history).toEqual(full);
      }),
    );
  });

  it('[SC1] a new edit forgets what was undone, and only the latest 200 are kept', () => {
    let history = withEdit(withEdit(emptyHistory, edit(1, 2)), edit(2, 3));
    history = undone(history)!.history;
    expect(redone(withEdit(history, edit(2, 7)))).toBeNull();
    for (let i = 0; i < 300; i++) history = withEdit(history, edit(i, i + 1));
    expect([history.done.length, history.done[0].changes[0].before.viewingDistanceMm]).toEqual([200, 100]);
  });
});

describe('settings that name other photos', () => {
  it('[SC19] forget a photo that was taken off, and only that', () => {
    const helpers = { lampOff: 'off', flatField: 'flat', printPhoto: 'off' };
    const settings = { ...settingsOf(500), helpers, reference: 'filament' };
    expect(withoutPhoto(settings, 'off').helpers).toEqual({ lampOff: null, flatField: 'flat', printPhoto: null });
    expect(withoutPhoto(settings, 'off').reference).toBe('filament');
    expect(withoutPhoto(settings, 'filament').reference).toBeNull();
    expect(withoutPhoto(settings, 'another')).toBe(settings);
  });
});

describe('a window whose size is given after it was drawn on', () => {
  const [assumed, caliper] = [
    { widthMm: 60, heightMm: 60 },
    { widthMm: 38, heightMm: 30 },
  ];
  const corner = { xMm: 60, yMm: 30 };
  const there = { xMm: 38, yMm: 15 };

  it('[SC11] keeps what was drawn where it is in the picture, and all else', () => {
    const patches = { leaveOut: [[corner]], paintedRed: [[corner]], paintedDark: [[corner]] };
    const kept = { leaveOut: [[there]], paintedRed: [[there]], paintedDark: [[there]] };
    for (const [drawn, shape] of [
      [
        { kind: 'ellipse', cutMm: [corner] },
        { kind: 'ellipse', cutMm: [there] },
      ],
      [
        { kind: 'polygon', pointsMm: [corner] },
        { kind: 'polygon', pointsMm: [there] },
      ],
      [{ kind: 'ellipse' }, { kind: 'ellipse' }],
      [null, null],
    ] as const) {
      const before = withWindow(settingsOf(500), { ...patches, shape: drawn, print: 'light' });
      const window = { ...before.window, ...kept, shape, sizeMm: caliper };
      expect(withSize(before, caliper, assumed)).toEqual({ ...before, window });
    }
  });

  it('[SC11] comes back to where it was when the size does', () => {
    const drawn = withWindow(settingsOf(500), { sizeMm: assumed, leaveOut: [[corner]] });
    const [patch] = withSize(withSize(drawn, caliper, assumed), assumed, caliper).window.leaveOut[0];
    expect([patch.xMm, patch.yMm].map((mm) => Number(mm.toFixed(9)))).toEqual([60, 30]);
  });
});

describe('LatestKept', () => {
  it('[SC2] forgets what was used longest ago, and nothing else', () => {
    const kept = new LatestKept<string, number>(2);
    kept.set('a', 1);
    kept.set('b', 2);
    kept.get('a');
    kept.set('c', 3);
    expect(['a', 'b', 'c'].map((key) => kept.get(key))).toEqual([1, undefined, 3]);
  });
});

describe('WorkQueue', () => {
  it('[SC3] does two at a time, what was asked to be first before what waits, dropped work never', async () => {
    const queue = new WorkQueue(2);
    const started: string[] = [];
    let atOnce = 0;
    let finished = 0;
    let most = 0;
    const work = (key: string) => async (): Promise<void> => {
      started.push(key);
      most = Math.max(most, ++atOnce);
      await new Promise((resolve) => setTimeout(resolve, 5));
      atOnce--;
      finished++;
    };
    for (const key of ['a', 'b', 'c', 'd', 'e']) queue.add(key, work(key), false);
    queue.add('now', work('now'), true);
    queue.drop('d');
    await expect.poll(() => finished, { timeout: 2000 }).toBe(5);
    expect([started, most]).toEqual([['a', 'b', 'now', 'c', 'e'], 2]);
  });
});

describe('photoChecks', () => {
  it('[SC4] every gate code belongs to exactly one named check', () => {
    const codes = photoChecks.flatMap((check) => check.codes);
    expect([...codes].sort()).toEqual([...gateCodes].sort());
  });
});
