import path from 'node:path';
import { exportUnit } from '../../book/export-unit';
import { importUnit } from '../../book/import-unit';
import { printable } from '../../../display/figure-text';
import { usageError } from '../arguments';
import { documentText, type UnitCall, type UnitCommand } from './unit-command';

async function runExport({ book, given, words, isJson, shell }: UnitCall): Promise<number> {
  const [called, file] = words;
  if (given.flags.has('share'))
    throw usageError(
      '--share is not built yet',
      'Without it originals travel byte for byte, personal data and all.',
      'NOT_BUILT_YET',
    );
  const unit = await book.idOf(called);
  const { revisions, photos } = await exportUnit(book, unit, path.resolve(shell.folder, file), shell.signal);
  const document = { format: 'evendial-export', version: 1, unit, file, revisions, photos, shared: false };
  const text =
    `${printable(file)} holds ${photos} originals, byte for byte, and ${revisions} revisions.\n` +
    '  Photos may tell where and with which camera they were taken.\n';
  await shell.print(isJson ? documentText(document) : text);
  return 0;
}

async function runImport({ book, given, words, isJson, shell }: UnitCall): Promise<number> {
  const [file] = words;
  const dryRun = given.flags.has('dry-run');
  const { unit, revisions, photos, shared, isWritten, isThere } = await importUnit(
    book,
    path.resolve(shell.folder, file),
    file,
    {
      dryRun,
      signal: shell.signal,
      onProgress: (done, inAll) => shell.progress(`${done} of ${inAll} files`),
    },
  ).finally(() => shell.progress(''));
  const { id, name } = unit;
  const document = { format: 'evendial-import', version: 1, unit: id, name, revisions, photos, shared, dryRun };
  const what = `${printable(JSON.stringify(name))}, ${revisions} revisions and ${photos} photos`;
  const done = isThere
    ? 'is in the book already, all of it'
    : isWritten
      ? 'is in the book'
      : 'is whole and can be imported';
  const text = `${what}: ${done}.\n  unit ${id}, revision ${unit.revision}\n`;
  await shell.print(isJson ? documentText({ ...document, written: isWritten, alreadyThere: isThere }) : text);
  return 0;
}

/** @rule BK24 */
export const archiveCommands: Readonly<Record<string, UnitCommand>> = {
  export: { usage: 'export UNIT FILE.evendial [--share]', flags: ['share'], words: [2, 2], run: runExport },
  import: { usage: 'import FILE.evendial [--dry-run]', flags: ['dry-run'], words: [1, 1], run: runImport },
};
