#!/usr/bin/env node
import path from 'node:path';
import { AppError } from '../../base/errors';
import { nearestWord, usageError } from './arguments';
import { runCompare } from './compare';
import { runDemo } from './demo';
import { exitCodeOf } from './exit-codes';
import { runFind } from './find';
import { callersFolder } from './folders';
import type { RunTask } from '../engine/run-task';
import { createTaskEngine } from '../engine/thread-engine';
import { printTo } from './print-to';
import { helpText, helpTopics } from './help';
import { runLamps } from './lamps';
import { runMeasure } from './measure';
import { runMix } from './mix';
import { runNext } from './next';
import { commandsNotBuilt } from './not-built';
import { runServe } from '../serve/serve';
import { runPlace } from './place';
import { runShade } from './shade';
import { versionOf, type Shell } from './shell';
import { runStart } from './start';
import { runUnit } from './unit/unit';
import { removeUnfinishedFilesSync } from './whole-files';

/** How long a cancelled run may take to put things in order before it is ended. */
const patienceMs = 700;

const commands = [
  'measure',
  'compare',
  'find',
  'mix',
  'lamps',
  'shade',
  'unit',
  'demo',
  'start',
  'serve',
  'help',
] as const;

function assertNoWords(command: string, words: readonly string[]): void {
  if (words.length > 0)
    throw usageError(`${command} takes no ${JSON.stringify(words[0])}`, `Write evendial ${command}.`);
}

async function showHelp(topic: string | undefined, shell: Shell): Promise<number> {
  const text = helpText(topic);
  if (text === null) {
    if (topic !== undefined && Object.hasOwn(commandsNotBuilt, topic)) throw notBuilt(topic);
    throw usageError(`no help on ${JSON.stringify(topic)}`, `There is help on ${helpTopics.join(', ')}.`);
  }
  await shell.print(text);
  return 0;
}

function notBuilt(command: string): AppError {
  return usageError(`${command} is not built yet`, commandsNotBuilt[command], 'NOT_BUILT_YET');
}

function asksForHelp(words: readonly string[]): boolean {
  const end = words.indexOf('--');
  return (end < 0 ? words : words.slice(0, end)).some((word) => word === '--help' || word === '-h');
}

async function dispatch(words: readonly string[], shell: Shell): Promise<number> {
  const [command, ...rest] = words;
  if (command === undefined || command === '--help' || command === '-h') return showHelp(undefined, shell);
  if (command === '--version' || command === '-V') {
    await shell.print(`${versionOf(shell.home)}\n`);
    return 0;
  }
  if (command === 'help') return showHelp(rest[0], shell);
  if (Object.hasOwn(commandsNotBuilt, command)) throw notBuilt(command);
  if (asksForHelp(rest)) return showHelp(helpTopics.includes(command) ? command : undefined, shell);
  if (command === 'measure') return runMeasure(rest, shell);
  if (command === 'compare') return runCompare(rest, shell);
  if (command === 'find') return runFind(rest, shell);
  if (command === 'mix') return runMix(rest, shell);
  if (command === 'lamps') return runLamps(rest, shell);
  if (command === 'shade') return runShade(rest, shell);
  if (command === 'next') return runNext(rest, shell);
  if (command === 'place') return runPlace(rest, shell);
  if (command === 'unit') return runUnit(rest, shell);
  if (command === 'demo') {
    assertNoWords(command, rest);
    return runDemo(shell);
  }
  if (command === 'serve') return runServe(rest, shell);
  if (command === 'start') return runStart(rest, shell);
  const near = nearestWord(command, [...commands, ...Object.keys(commandsNotBuilt)]);
  const remedy = near === null ? "'evendial help' lists the commands." : `Did you mean 'evendial ${near}'?`;
  throw usageError(`unknown command ${JSON.stringify(command)}`, remedy, 'COMMAND_UNKNOWN');
}

/** What to print and return for anything that was thrown. */
function reportError(error: unknown, shell: Shell): number {
  if (shell.signal.aborted) {
    shell.tell('Cancelled.');
    return exitCodeOf.cancelled;
  }
  if (error instanceof AppError) {
    shell.tell(`evendial: ${error.message}\n  ${error.remedy}`);
    return exitCodeOf[error.kind];
  }
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  shell.tell(
    `evendial: this is a defect of the program, not yours. Please report it with the lines below and, if you can, the photo.\n` +
      `  evendial ${versionOf(shell.home)}, Node ${process.version}, ${process.platform} ${process.arch}\n${stack}`,
  );
  return 1;
}

function createShell(signal: AbortSignal, runTask: RunTask): Shell {
  // What goes wrong with standard output is told by `print`; of standard error there is nobody left to tell.
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);
  return {
    folder: callersFolder(process.env, process.cwd()),
    home: path.resolve(__dirname, '..'),
    signal,
    runTask,
    print: (text) => printTo(process.stdout, text),
    tell: (text) => void process.stderr.write(`${text}\n`),
    progress: (text) => {
      if (process.stderr.isTTY) process.stderr.write(`\r\u001b[2K${text}`);
    },
  };
}

/** Ends the process, with everything under way removed. */
function finish(code: number): never {
  removeUnfinishedFilesSync();
  process.exit(code);
}

async function main(): Promise<void> {
  const cancel = new AbortController();
  const engine = createTaskEngine();
  const shell = createShell(cancel.signal, engine.runTask);
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      cancel.abort(new AppError('cancelled', 'CANCELLED', 'cancelled', 'Start it again.'));
      setTimeout(() => finish(exitCodeOf.cancelled), patienceMs);
    });
  }
  let code: number;
  try {
    code = await dispatch(process.argv.slice(2), shell);
  } catch (error) {
    code = reportError(error, shell);
  }
  await engine.end();
  finish(code);
}

void main();
