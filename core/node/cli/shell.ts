import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { RunTask } from '../engine/run-task';

/** What a command needs from the process that it runs in. */
export interface Shell {
  /** Relative paths belong here. */
  readonly folder: string;
  /** Where the program is installed: holds package.json and samples/. */
  readonly home: string;
  readonly signal: AbortSignal;
  /** Has the engine of this process do one task. */
  readonly runTask: RunTask;
  /** Writes to standard output; resolves when it is out, also when nobody reads any more. */
  print(text: string): Promise<void>;
  /** A message on standard error. */
  tell(text: string): void;
  /** Shows what is being done, on a terminal only; an empty text clears the line. */
  progress(text: string): void;
}

/** The version of the program. */
export function versionOf(home: string): string {
  const facts: unknown = JSON.parse(readFileSync(path.join(home, 'package.json'), 'utf8'));
  if (typeof facts !== 'object' || facts === null || !('version' in facts))
    throw new Error('package.json has no version');
  return String(facts.version);
}
