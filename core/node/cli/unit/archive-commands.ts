import path from 'node:path';
import { exportUnit } from '../../book/export-unit';
import { importUnit } from '../../book/import-unit';
import { shareUnit } from '../../book/share-unit';
import { createDecoder } from '../../decode-process';
import { printable } from '../../../display/figure-text';
import { documentText, type UnitCall, type UnitCommand } from './unit-command';

async function runShare({ book, words, isJson, shell }: UnitCall): Promise<number> {
  const [called, file] = words;
  const id = await book.idOf(called);
  const decoder = createDecoder({});
  const { unit, photos, leftOut } = await shareUnit(book, id, path.resolve(shell.folder, file), {
    decoder,
    signal: shell.signal,
    onProgress: (done, inAll) => shell.progress(`${done} of ${inAll} photos made again`),
  }).finally(() => {
    shell.progress('');
    return decoder.close();
  });
  const document = { format: 'evendial-export', version: 1, unit, file, revisions: 1, photos, shared: true, leftOut };
  const lines = [
    `${printable(file)} holds the record as it is now, and ${photos} photos made again.`,
    '  Left out: owner, serial number, earlier revisions, names of files, and all that photos say of',
    '  place, person, date and camera number. Notes go along as they are: read them before you give it away.',
    ...leftOut.map((name) => `  Not made again, and left out: ${printable(name)}`),
  ];
  await shell.print(isJson ? documentText(document) : `${lines.join('\n')}\n`);
  return 0;
}

async function runExport(call: UnitCall): Promise<number> {
  const { book, given, words, isJson, shell } = call;
  if (given.flags.has('share')) return runShare(call);
  const [called, file] = words;
  const unit = await book.idOf(called);
  const { revisions, photos } = await exportUnit(book, unit, path.resolve(shell.folder, file), shell.signal);
  const document = { format: 'evendial-export', version: 1, unit, file, revisions, photos, shared: false };
  const text =
    `${printable(file)} holds ${photos} originals, byte for byte, and ${revisions} revisions.\n` +
    '  Photos may tell where, when and with which camera they were taken; --share leaves that out.\n';
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
