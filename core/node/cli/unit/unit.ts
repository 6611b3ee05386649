import { Book } from '../../book/book';
import { nearestWord, readArguments, usageError } from '../arguments';
import { readBookFolder } from '../book-option';
import type { Shell } from '../shell';
import { archiveCommands } from './archive-commands';
import { editCommands } from './edit-commands';
import { measureCommands } from './measure-command';
import { photoCommands } from './photo-commands';
import { sheetCommands } from './sheet-command';
import type { UnitCommand } from './unit-command';
import { viewCommands } from './view-commands';

const commands: Readonly<Record<string, UnitCommand>> = {
  ...viewCommands,
  ...editCommands,
  ...photoCommands,
  ...measureCommands,
  ...archiveCommands,
  ...sheetCommands,
};

function commandOf(name: string | undefined): UnitCommand {
  if (name === undefined) throw usageError('unit needs a command', "'evendial help unit' lists them.");
  if (Object.hasOwn(commands, name)) return commands[name];
  const near = nearestWord(name, Object.keys(commands));
  const remedy = near === null ? "'evendial help unit' lists the commands." : `Did you mean 'evendial unit ${near}'?`;
  throw usageError(`unknown command unit ${JSON.stringify(name)}`, remedy, 'COMMAND_UNKNOWN');
}

/** `evendial unit ...`: the book of units. @returns the exit code @rule BK24 */
export async function runUnit(words: readonly string[], shell: Shell): Promise<number> {
  const [name, ...rest] = words;
  const command = commandOf(name);
  const rules = {
    command: 'unit',
    values: ['book', ...(command.values ?? [])],
    flags: ['json', ...(command.flags ?? [])],
  };
  const given = readArguments(rest, rules);
  const [fewest, most = Infinity] = command.words;
  if (given.files.length < fewest || given.files.length > most) {
    const message = given.files.length < fewest ? `unit ${name} lacks a word` : `unit ${name} has a word too many`;
    throw usageError(message, `Write 'evendial unit ${command.usage}'.`);
  }
  const book = new Book(readBookFolder(given, shell));
  return command.run({ book, given, words: given.files, isJson: given.flags.has('json'), shell });
}
