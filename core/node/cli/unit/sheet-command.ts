import path from 'node:path';
import { namedAsInRecord, photoNamer } from '../../../book/photo-names';
import type { MeasureResult } from '../../../contract/measure';
import type { UnitRecord } from '../../../contract/unit-record';
import { printable } from '../../../display/figure-text';
import type { SheetForm } from '../../sheet/make-sheet';
import type { PaperName } from '../../sheet/paper';
import { sheetRequest, sheetSource } from '../../sheet/unit-sheet';
import { usageError } from '../arguments';
import { exitCodeOfResult } from '../exit-codes';
import { measureInShell } from '../measure';
import { readChoice } from '../option-values';
import { versionOf } from '../shell';
import { writeWholeFile } from '../whole-files';
import { documentText, type UnitCall, type UnitCommand } from './unit-command';

/** What the file is to be, by its ending. */
function formOf(file: string | undefined, paper: string | undefined): SheetForm {
  if (file === undefined)
    throw usageError('the sheet has no file to go to', 'Give it with --out FILE.pdf or FILE.html.');
  const ending = path.extname(file).toLowerCase();
  if (ending === '.pdf') return { kind: 'pdf', paper: paperOf(paper) };
  if (ending !== '.html') {
    const message = `--out ${file}: a sheet is a .pdf or a .html`;
    throw usageError(message, 'Give the file one of these endings.', 'SHEET_ENDING');
  }
  if (paper !== undefined) throw usageError('--paper is for a PDF', 'A page is printed on the paper of the printer.');
  return { kind: 'html' };
}

function paperOf(given: string | undefined): PaperName {
  if (given === undefined) return 'A4';
  return readChoice('paper', given, ['a4', 'letter']) === 'letter' ? 'letter' : 'A4';
}

async function measureUnit(record: UnitRecord, { book, shell }: UnitCall): Promise<MeasureResult> {
  const folder = book.unitFolder(record.id);
  const request = sheetRequest(record, (file) => path.join(folder, file));
  return request ? measureInShell(request, shell, photoNamer(record.photos)) : { windows: [] };
}

async function runSheet(call: UnitCall): Promise<number> {
  const { book, given, words, isJson, shell } = call;
  const out = given.values.get('out');
  const form = formOf(out, given.values.get('paper'));
  const isShared = given.flags.has('share');
  const record = await book.read(await book.idOf(words[0]));
  const result = await measureUnit(record, call);
  const source = sheetSource(record, result, isShared, `Evendial ${versionOf(shell.home)}`);
  shell.progress('drawing the sheet');
  // Loaded here alone: letters and PDF are half of the program, and no other command needs them.
  const { makeSheet } = await import('../../sheet/make-sheet');
  const bytes = await makeSheet(source, form, shell.signal).finally(() => shell.progress(''));
  await writeWholeFile(path.resolve(shell.folder, out!), bytes, shell.signal);
  // Whoever makes a sheet to be shared is told the names that it leaves out.
  for (const entry of namedAsInRecord(result, record.photos).windows) {
    if (!('failed' in entry)) continue;
    const { failed } = entry;
    shell.tell(`${printable(`${failed.file}: ${failed.error.message}`)}\n  ${failed.error.remedy}`);
  }
  const document = {
    format: 'evendial-sheet',
    version: 1,
    unit: record.id,
    revision: record.revision,
    file: out,
    paper: form.kind === 'pdf' ? form.paper : null,
    shared: isShared,
    bytes: bytes.length,
  };
  const text = `${printable(out!)} is the record sheet of ${printable(record.name)}, revision ${record.revision}.\n`;
  await shell.print(isJson ? documentText(document) : text);
  return exitCodeOfResult(result, false);
}

/** @rule RS14 */
export const sheetCommands: Readonly<Record<string, UnitCommand>> = {
  sheet: {
    usage: 'sheet UNIT --out FILE.pdf|FILE.html [--paper A4|letter] [--share]',
    values: ['out', 'paper'],
    flags: ['share'],
    words: [1, 1],
    run: runSheet,
  },
};
