import { askedWrongly } from './book-errors';

/** A step into a record: a field by its key, or an item of a list by its name. */
export type FieldStep = { readonly key: string } | { readonly item: string };

const form = 'Write key=value, as before.lamp.base=E10 or trials[Frosted].lamps[left].currentMa=12.';
const step = /(?:^|\.)([A-Za-z][A-Za-z0-9]*)|\[("(?:[^"\\]|\\.)*"|[^\]]*)\]/gy;

/**
 * The steps of `trials[LEDs 8 mm behind].lamps[left].currentMa`; a name with a bracket in it is written in quotation marks.
 *
 * @throws AppError FIELD_UNKNOWN
 * @rule BK12
 */
export function readFieldPath(path: string): FieldStep[] {
  const steps: FieldStep[] = [];
  step.lastIndex = 0;
  let at = 0;
  for (let found = step.exec(path); found !== null; found = step.exec(path)) {
    const [whole, key, item] = found;
    at += whole.length;
    steps.push(key === undefined ? { item: itemName(item, path) } : { key });
  }
  if (at < path.length || steps.length === 0 || 'item' in steps[0]) {
    throw askedWrongly('FIELD_UNKNOWN', `${JSON.stringify(path)} is no key of a record`, form);
  }
  return steps;
}

function itemName(written: string, path: string): string {
  if (!written.startsWith('"')) return written;
  try {
    return String(JSON.parse(written));
  } catch {
    throw askedWrongly('FIELD_UNKNOWN', `${JSON.stringify(path)}: a quotation mark is missing`, form);
  }
}
