import { recordSchema } from '../../../book/record-schema';
import { checkBook } from '../../book/check-book';
import { exitCodeOf } from '../exit-codes';
import { documentText, type UnitCall, type UnitCommand } from './unit-command';
import { checkText, listText, timelineText, unitText } from './unit-text';

async function runList({ book, given, isJson, shell }: UnitCall): Promise<number> {
  const search = given.values.get('search');
  const units = await book.list(search);
  if (isJson) {
    const entries = units.map((unit) => {
      if ('error' in unit) {
        const { code, message, remedy } = unit.error;
        return { id: unit.id, error: { code, message, remedy } };
      }
      const { id, name, revision, savedAt, windows, trials, photos, chosen } = unit;
      return { id, name, revision, savedAt, windows, trials, photos, chosen };
    });
    await shell.print(documentText({ format: 'evendial-units', version: 1, units: entries }));
  } else await shell.print(listText(units, book.folder, search));
  for (const unit of units) if ('error' in unit) shell.tell(`${unit.error.message}\n  ${unit.error.remedy}`);
  return units.some((unit) => 'error' in unit) ? exitCodeOf.book : 0;
}

async function runShow({ book, words, isJson, shell }: UnitCall): Promise<number> {
  const unit = await book.read(await book.idOf(words[0]));
  await shell.print(isJson ? documentText(unit) : unitText(unit));
  return 0;
}

async function runTimeline({ book, words, isJson, shell }: UnitCall): Promise<number> {
  const unit = await book.idOf(words[0]);
  const entries = await book.timeline(unit);
  const document = { format: 'evendial-timeline', version: 1, unit, entries };
  await shell.print(isJson ? documentText(document) : timelineText(entries));
  return 0;
}

async function runCheck({ book, given, isJson, shell }: UnitCall): Promise<number> {
  const onProgress = (done: number, inAll: number): void => shell.progress(`${done} of ${inAll} units checked`);
  const { units, findings } = await checkBook(book, {
    repair: given.flags.has('repair'),
    signal: shell.signal,
    onProgress,
  }).finally(() => shell.progress(''));
  const document = { format: 'evendial-check', version: 1, units, findings };
  await shell.print(isJson ? documentText(document) : checkText(units, findings));
  return findings.some(({ level, repaired }) => level !== 'note' && repaired === undefined) ? exitCodeOf.book : 0;
}

async function runSchema({ shell }: UnitCall): Promise<number> {
  await shell.print(documentText(recordSchema()));
  return 0;
}

/** The commands that look and leave records as they are. @rule BK24 */
export const viewCommands: Readonly<Record<string, UnitCommand>> = {
  list: { usage: 'list [--search TEXT]', values: ['search'], words: [0, 0], run: runList },
  show: { usage: 'show UNIT', words: [1, 1], run: runShow },
  timeline: { usage: 'timeline UNIT', words: [1, 1], run: runTimeline },
  check: { usage: 'check [--repair]', flags: ['repair'], words: [0, 0], run: runCheck },
  schema: { usage: 'schema', words: [0, 0], run: runSchema },
};
