import path from 'node:path';
import { usageError, type GivenArguments } from './arguments';
import type { Shell } from './shell';

/** The folder that --watch names; null: none. @throws AppError of kind usage */
export function readWatchFolder({ values }: GivenArguments, shell: Shell): string | null {
  const named = values.get('watch');
  if (named === '') throw usageError('--watch names no folder', 'Name the folder that photos arrive in.');
  return named === undefined ? null : path.resolve(shell.folder, named);
}
