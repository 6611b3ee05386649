import { addTrial, addWindow, chooseTrial } from '../../../book/edits';
import { setField } from '../../../book/set-field';
import { changesOf } from '../../../book/timeline';
import { lightKinds, printKinds } from '../../../contract/light';
import type { UnitWindow } from '../../../contract/unit-record';
import { printable } from '../../../display/figure-text';
import { usageError } from '../arguments';
import { readChoice, readSize } from '../option-values';
import { changeLines } from './unit-text';
import { printChanged, type UnitCall, type UnitCommand } from './unit-command';

const quoted = (name: string): string => printable(JSON.stringify(name));

async function runNew(call: UnitCall): Promise<number> {
  const { book, given, words } = call;
  const like = given.values.get('like');
  const model = like === undefined ? undefined : await book.read(await book.idOf(like));
  const unit = await book.create(words[0], model);
  return printChanged(call, unit, `${quoted(unit.name)} is in the book.`);
}

async function runSet(call: UnitCall): Promise<number> {
  const { book, words } = call;
  const [called, ...fields] = words;
  const pairs = fields.map((field): [string, string] => {
    // A name in brackets may hold an equals sign.
    const found = /^((?:[^=[]|\[(?:"(?:[^"\\]|\\.)*"|[^\]]*)\])*)=(.*)$/s.exec(field);
    if (found) return [found[1], found[2]];
    throw usageError(`${JSON.stringify(field)} is not key=value`, 'Write it as before.lamp.base=E10.');
  });
  const id = await book.idOf(called);
  const before = await book.read(id);
  const after = await book.edit(id, (unit) => pairs.reduce((one, [key, value]) => setField(one, key, value), unit));
  return printChanged(call, after, changeLines(changesOf(before, after)).join('\n') || 'Nothing has changed.');
}

function windowOf({ given, words }: UnitCall): UnitWindow {
  const size = given.values.get('size');
  if (size === undefined) throw usageError('the window has no size', 'Give width and height in mm: --size 92x18.');
  const { widthMm, heightMm } = readSize(size);
  const outline = given.values.get('outline');
  const print = given.values.get('print');
  return {
    name: words[1],
    widthMm,
    heightMm,
    ...(outline === undefined ? {} : { outline: { kind: readChoice('outline', outline, ['rectangle', 'ellipse']) } }),
    ...(print === undefined ? {} : { print: readChoice('print', print, printKinds) }),
  };
}

async function runAddWindow(call: UnitCall): Promise<number> {
  const window = windowOf(call);
  const unit = await call.book.edit(await call.book.idOf(call.words[0]), (one) => addWindow(one, window));
  return printChanged(
    call,
    unit,
    `Window ${quoted(window.name)}, ${window.widthMm} x ${window.heightMm} mm, is added.`,
  );
}

async function runAddTrial(call: UnitCall): Promise<number> {
  const { book, given, words } = call;
  const [called, name] = words;
  const like = given.values.get('like');
  const mirrorTo = given.values.get('mirror-to');
  const stated = given.values.get('light');
  const light = stated === undefined ? undefined : readChoice('light', stated, lightKinds);
  const trial = {
    name,
    ...(light === undefined ? {} : { light }),
    ...(like === undefined ? {} : { like }),
    ...(mirrorTo === undefined ? {} : { mirrorTo }),
  };
  const unit = await book.edit(await book.idOf(called), (one) => addTrial(one, trial));
  return printChanged(call, unit, `Trial ${quoted(name)} is added.`);
}

async function runChoose(call: UnitCall): Promise<number> {
  const { book, given, words } = call;
  const [called, name] = words;
  const unit = await book.edit(await book.idOf(called), (one) => chooseTrial(one, name, given.values.get('why')));
  return printChanged(call, unit, `Trial ${quoted(name)} is chosen.`);
}

const restore =
  (which: 'undo' | 'redo') =>
  async (call: UnitCall): Promise<number> => {
    const { book, words } = call;
    const id = await book.idOf(words[0]);
    const before = await book.read(id);
    const after = await book.restore(id, which);
    const what = which === 'undo' ? 'Undone' : 'Done again';
    const lines = [`${what}: the unit is as in revision ${after.restores}.`, ...changeLines(changesOf(before, after))];
    return printChanged(call, after, lines.join('\n'));
  };

/** The commands that change a record. @rule BK24 */
export const editCommands: Readonly<Record<string, UnitCommand>> = {
  new: { usage: 'new NAME [--like UNIT]', values: ['like'], words: [1, 1], run: runNew },
  set: { usage: 'set UNIT key=value...', words: [2], run: runSet },
  'add-window': {
    usage: 'add-window UNIT NAME --size 92x18 [--outline rectangle|ellipse] [--print dark|light|none|auto]',
    values: ['size', 'outline', 'print'],
    words: [2, 2],
    run: runAddWindow,
  },
  'add-trial': {
    usage: 'add-trial UNIT NAME [--light KIND] [--like TRIAL] [--mirror-to WINDOW]',
    values: ['light', 'like', 'mirror-to'],
    words: [2, 2],
    run: runAddTrial,
  },
  'choose-trial': {
    usage: 'choose-trial UNIT TRIAL [--why TEXT]',
    values: ['why'],
    words: [2, 2],
    run: runChoose,
  },
  undo: { usage: 'undo UNIT', words: [1, 1], run: restore('undo') },
  redo: { usage: 'redo UNIT', words: [1, 1], run: restore('redo') },
};
