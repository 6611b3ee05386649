import { describe, expect, it } from 'vitest';
import { addWindow } from '../../../core/book/edits';
import { newUnit, newUnitLike, nextRevision, restoredRevision, revisionToRestore } from '../../../core/book/revisions';
import { setField } from '../../../core/book/set-field';
import { changesOf, timelineOf } from '../../../core/book/timeline';
import type { UnitRecord } from '../../../core/contract/unit-record';
import { larkfieldUnit, savedAt } from '../../support/unit-records';

/** Revisions as a store would keep them. */
class Kept {
  readonly all: UnitRecord[] = [newUnit('u', 'T-60', savedAt)];
  get last(): UnitRecord {
    return this.all[this.all.length - 1];
  }
  note(text: string): void {
    this.all.push(nextRevision(this.last, setField(this.last, 'notes', text), this.last.revision + 1, savedAt));
  }
  restore(which: 'undo' | 'redo'): string | undefined {
    const target = this.all[revisionToRestore(this.last, which) - 1];
    this.all.push(restoredRevision(this.last, target, which, this.last.revision + 1, savedAt));
    return this.last.notes;
  }
}

describe('revisions', () => {
  it('[BK6] undo and redo walk back and forth over the edits, and take no revision away', () => {
    const kept = new Kept();
    for (const text of ['one', 'two', 'three']) kept.note(text);
    expect(['undo', 'undo', 'redo', 'undo', 'undo'].map((which) => kept.restore(which as 'undo'))).toEqual([
      'two',
      'one',
      'two',
      'one',
      undefined,
    ]);
    expect(() => kept.restore('undo')).toThrow('no earlier revision');
    expect(['redo', 'redo', 'redo'].map(() => kept.restore('redo'))).toEqual(['one', 'two', 'three']);
    expect(() => kept.restore('redo')).toThrow('nothing was undone');
    expect(kept.all.map(({ revision }) => revision)).toEqual(kept.all.map((_, i) => i + 1));
  });

  it('[BK6] an edit after undoing cannot be redone past, and undoing it leads back to where it began', () => {
    const kept = new Kept();
    kept.note('one');
    kept.note('two');
    kept.restore('undo');
    kept.note('other');
    expect(() => kept.restore('redo')).toThrow('nothing was undone');
    expect(kept.restore('undo')).toBe('one');
    expect(kept.restore('redo')).toBe('other');
  });

  it('[BK5] a unit like another has its windows and trials, not its photos, choice, owner', () => {
    const like = newUnitLike(larkfieldUnit(), 'second', 'The second T-60', savedAt);
    const { windows, trials, before } = larkfieldUnit();
    expect(like).toMatchObject({ revision: 1, windows, trials, before, photos: [], readings: [] });
    expect([like.owner, like.serialNumber, like.chosen]).toEqual([undefined, undefined, undefined]);
  });

  it('[BK7] tells what a revision changed, place by place, by names and not by numbers', () => {
    const first = larkfieldUnit();
    const turned = setField(first, 'trials[Frosted].lamps[left].tiltDeg', '9,1');
    const more = addWindow(
      { ...turned, trials: [...turned.trials].reverse() },
      { name: 'eye', widthMm: 7, heightMm: 6 },
    );
    const changes = changesOf(first, nextRevision(first, more, 2, savedAt));
    expect(changes).toEqual([
      { place: 'windows.eye', after: { name: 'eye', widthMm: 7, heightMm: 6 } },
      { place: 'trials.Frosted.lamps.left.tiltDeg', before: [5, -3], after: [9, 1] },
    ]);
    expect(timelineOf([first, nextRevision(first, first, 2, savedAt)])[1]).toEqual({
      revision: 2,
      savedAt,
      changes: [],
    });
  });
});
