import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recordSchema, type SchemaNode } from '../../../../core/book/record-schema';
import { setField } from '../../../../core/book/set-field';
import { addTrial } from '../../../../core/book/edits';
import { ofLamp, ofPart, pathText, textOfValue, valueAt } from '../../../../renderer/views/record/field-path';
import { fieldsByKeys } from '../../../../renderer/views/record/fields';
import { larkfieldUnit } from '../../../support/unit-records';

/** Kept by the program, or set where they are seen: on the plan, on the bench, by filing, by choosing. */
const setElsewhere = [
  /^(format|version|id|revision|savedAt|undo|redo|restores|readings|photos|chosen)\b/,
  /^(windows|trials|trials\.lamps|trials\.strings|parts)\.name$/,
  /^windows\.(outline|leaveOut|painted)/,
  /^trials\.(windows|like|mirroredTo|strings\.lamps|lamps\.(positionMm|tiltDeg|on))/,
  // What station Next change forecast, kept with the trial.
  /^trials\.planned/,
];

/** Every place of a record that holds one answer, items of lists without their names. */
function leaves(node: SchemaNode, keys: readonly string[]): string[] {
  const item = node.items !== false && node.items?.properties ? node.items : undefined;
  const inner = node.properties ?? item?.properties;
  if (!inner) return [keys.join('.')];
  return Object.entries(inner).flatMap(([key, one]) => leaves(one, [...keys, key]));
}

describe('the fields of a record on the screen', () => {
  it('[SU1] every answer that the record has a place for is asked for, and nothing else', () => {
    const asked = leaves(recordSchema(), []).filter((keys) => !setElsewhere.some((pattern) => pattern.test(keys)));
    expect(asked.length).toBeGreaterThan(50);
    expect(asked.filter((keys) => !fieldsByKeys.has(keys))).toEqual([]);
    expect([...fieldsByKeys.keys()].filter((keys) => !asked.includes(keys))).toEqual([]);
  });

  it('[SU1] a field is one of its kind: choices are those of the record, numbers are numbers', () => {
    const nodes = new Map<string, SchemaNode>();
    const walk = (node: SchemaNode, keys: readonly string[]): void => {
      nodes.set(keys.join('.'), node);
      const item = node.items === false ? undefined : node.items;
      for (const [key, one] of Object.entries(node.properties ?? item?.properties ?? {})) walk(one, [...keys, key]);
    };
    walk(recordSchema(), []);
    for (const [keys, { kind }] of fieldsByKeys) {
      const node = nodes.get(keys)!;
      const wanted =
        node.enum !== undefined
          ? 'choice'
          : node.type === 'boolean'
            ? 'yes-no'
            : node.type === 'number' || node.type === 'integer'
              ? 'number'
              : null;
      if (wanted) expect([keys, kind.as]).toEqual([keys, wanted]);
      else expect(['line', 'text', 'day']).toContain(kind.as);
      if (kind.as === 'choice') expect(Object.keys(kind.words).sort()).toEqual([...node.enum!].map(String).sort());
    }
  });

  it('[SU2] a path names the same place to the record and to the screen, whatever a trial, lamp or part is called', () => {
    const name = fc.string({ minLength: 1, maxLength: 20 }).filter((text) => text.trim() !== '');
    fc.assert(
      fc.property(name, name, (trial, lamp) => {
        const record = addTrial(larkfieldUnit(), { name: `a ${trial}` });
        const path = [...ofLamp(`a ${trial}`, lamp), 'currentMa'];
        const changed = setField(record, pathText(path), '12.5');
        expect(valueAt(changed, path)).toBe(12.5);
        const part = setField(record, pathText([...ofPart(lamp), 'lot']), trial);
        expect(valueAt(part, [...ofPart(lamp), 'lot'])).toBe(trial);
      }),
      { numRuns: 60 },
    );
  });

  it('[SU2] what a field shows is what it would set: every answer of a record is the same after it was set again', () => {
    const record = larkfieldUnit();
    for (const keys of fieldsByKeys.keys()) {
      const path = keys.split('.');
      const value = valueAt(record, path);
      if (value === undefined || Array.isArray(value)) continue;
      expect(valueAt(setField(record, keys, textOfValue(value)), path)).toEqual(value);
    }
  });
});
