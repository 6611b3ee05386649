import path from 'node:path';

/** The folder that relative paths belong to: the caller's, also under `npm run`, which moves to the project first. */
export function callersFolder(environment: NodeJS.ProcessEnv, currentFolder: string): string {
  return environment['INIT_CWD'] ? path.resolve(currentFolder, environment['INIT_CWD']) : currentFolder;
}
