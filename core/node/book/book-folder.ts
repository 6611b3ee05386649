import { homedir } from 'node:os';
import path from 'node:path';

/** What decides where a user's data lie. */
export interface UsersMachine {
  readonly platform: NodeJS.Platform;
  readonly environment: NodeJS.ProcessEnv;
  readonly home: string;
}

function dataFolder({ platform, environment, home }: UsersMachine): string {
  if (platform === 'win32') return environment['APPDATA'] ?? path.join(home, 'AppData', 'Roaming');
  if (platform === 'darwin') return path.join(home, 'Library', 'Application Support');
  const stated = environment['XDG_DATA_HOME'];
  return stated !== undefined && path.isAbsolute(stated) ? stated : path.join(home, '.local', 'share');
}

/**
 * The folder of the user's book where none is named.
 *
 * @source XDG Base Directory Specification 0.8 (Linux); common practice on the other systems
 * @rule BK25
 */
export function usersBookFolder(machine: UsersMachine): string {
  return path.join(dataFolder(machine), 'evendial', 'book');
}

/** The folder of the book as it was named, from where the caller stands; undefined: the user's own. @rule BK25 */
export function bookFolder(named: string | undefined, callersFolder: string): string {
  if (named !== undefined) return path.resolve(callersFolder, named);
  return usersBookFolder({ platform: process.platform, environment: process.env, home: homedir() });
}
