import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** What is known of the machine before a window is tried. */
export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly env: NodeJS.ProcessEnv;
  readonly isRoot: boolean;
  /** Where the program is installed. */
  readonly home: string;
}

/** Open a window with this runtime, or serve the bench; `reason` is told to the user, null when there is nothing to say. */
export type StartChoice =
  | {
      readonly kind: 'window';
      readonly runtime: string;
      readonly flags: readonly string[];
      readonly reason: string | null;
    }
  | { readonly kind: 'serve'; readonly reason: string };

const executables: Partial<Record<NodeJS.Platform, string>> = {
  win32: 'electron.exe',
  darwin: 'Electron.app/Contents/MacOS/Electron',
};

/** The runtime named by ELECTRON_OVERRIDE_DIST_PATH, else the one that the electron package has fetched for itself. */
function findRuntime({ env, home, platform }: Machine): string | null {
  const executable = executables[platform] ?? 'electron';
  const stated = env['ELECTRON_OVERRIDE_DIST_PATH'];
  const packageFolder = path.join(home, 'node_modules', 'electron');
  const pathFile = path.join(packageFolder, 'path.txt');
  const fetched = existsSync(pathFile) ? readFileSync(pathFile, 'utf8').trim() : executable;
  const file = stated ? path.join(stated, executable) : path.join(packageFolder, 'dist', fetched);
  return existsSync(file) ? file : null;
}

/**
 * Which shell `evendial start` opens.
 *
 * @rule BE11
 */
export function chooseStart(machine: Machine): StartChoice {
  const { platform, env, isRoot } = machine;
  const runtime = findRuntime(machine);
  if (runtime === null) {
    const how = env['ELECTRON_OVERRIDE_DIST_PATH']
      ? `there is none in ELECTRON_OVERRIDE_DIST_PATH (${env['ELECTRON_OVERRIDE_DIST_PATH']})`
      : "the electron package has not fetched one; 'npx install-electron' does";
    return { kind: 'serve', reason: `no window: a runtime for it is missing (${how}).` };
  }
  const hasDisplay = platform !== 'linux' || Boolean(env['DISPLAY'] || env['WAYLAND_DISPLAY']);
  if (!hasDisplay)
    return { kind: 'serve', reason: 'no window: there is no display (DISPLAY and WAYLAND_DISPLAY are empty).' };
  const unsandboxed = platform === 'linux' && isRoot;
  const reason =
    "You are root, for whom the window's sandbox does not work: it runs without. Better start it as another user.";
  return {
    kind: 'window',
    runtime,
    flags: unsandboxed ? ['--no-sandbox'] : [],
    reason: unsandboxed ? reason : null,
  };
}
