import type { UnitRecord } from '../contract/unit-record';
import { unitVersion } from '../contract/unit-record';
import { askedWrongly } from './book-errors';

/** A unit that has just been made: revision 1. @param savedAt ISO 8601, UTC @rule BK5 */
export function newUnit(id: string, name: string, savedAt: string): UnitRecord {
  return {
    format: 'evendial-unit',
    version: unitVersion,
    id,
    revision: 1,
    savedAt,
    undo: null,
    redo: null,
    name,
    windows: [],
    photos: [],
    trials: [],
    readings: [],
    parts: [],
  };
}

/**
 * A unit that begins where another stands: its windows, what it was before, how photos are taken, and the trials without
 * photos, readings, choice, checks, owner and serial number.
 *
 * @rule BK5
 */
export function newUnitLike(other: UnitRecord, id: string, name: string, savedAt: string): UnitRecord {
  const { maker, model, photography, before, windows, trials, parts } = other;
  return {
    ...newUnit(id, name, savedAt),
    ...(maker === undefined ? {} : { maker }),
    ...(model === undefined ? {} : { model }),
    ...(photography === undefined ? {} : { photography }),
    ...(before === undefined ? {} : { before }),
    windows,
    trials,
    parts,
  };
}

/**
 * The next revision: what was edited, with undoing leading back to where it was edited from.
 *
 * @param revision  above that of `from`; revisions that were never finished are skipped
 * @rule BK6
 */
export function nextRevision(from: UnitRecord, edited: UnitRecord, revision: number, savedAt: string): UnitRecord {
  const content = { ...edited };
  delete content.restores;
  return { ...content, id: from.id, revision, savedAt, undo: from.revision, redo: null };
}

/** What undo or redo brings back from `current`. @throws AppError NOTHING_TO_UNDO, NOTHING_TO_REDO @rule BK6 */
export function revisionToRestore(current: UnitRecord, which: 'undo' | 'redo'): number {
  const target = current[which];
  if (target !== null) return target;
  const message = which === 'undo' ? 'there is no earlier revision' : 'nothing was undone since the last change';
  throw askedWrongly(
    `NOTHING_TO_${which === 'undo' ? 'UNDO' : 'REDO'}`,
    message,
    "'evendial unit timeline' shows them.",
  );
}

/**
 * A new revision with the content of an earlier one. Nothing is taken away: undoing adds a revision, and can itself be redone.
 *
 * @param target  the revision that `revisionToRestore` names
 * @rule BK6
 */
export function restoredRevision(
  current: UnitRecord,
  target: UnitRecord,
  which: 'undo' | 'redo',
  revision: number,
  savedAt: string,
): UnitRecord {
  const redo = which === 'undo' ? current.revision : target.redo;
  return { ...target, id: current.id, revision, savedAt, undo: target.undo, redo, restores: target.revision };
}
