import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { recordText } from '../../core/book/read-record';
import { larkfieldUnit } from './unit-records';

/** A unit as a book holds it, written without the store's care. */
export function writeUnit(book: string, index: number): void {
  const id = `unit-${index}`;
  const place = path.join(book, 'units', id);
  for (const inner of ['revisions', 'photos']) mkdirSync(path.join(place, inner), { recursive: true });
  const unit = { ...larkfieldUnit(), id, name: `Unit ${index}`, notes: `lot ${index} ${'hum and noise '.repeat(60)}` };
  const text = recordText(unit);
  writeFileSync(path.join(place, 'revisions', '1.json'), text);
  writeFileSync(path.join(place, 'unit.json'), text);
}
