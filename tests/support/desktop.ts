import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { _electron, type ElectronApplication, type Page } from 'playwright-core';

/** The runtime that the desktop tests run in; null with the reason why there is none. */
export function desktopRuntime(): { readonly file: string } | { readonly missing: string } {
  const folder = process.env['ELECTRON_OVERRIDE_DIST_PATH'];
  if (process.platform !== 'linux') return { missing: 'the desktop tests need Linux' };
  if (!folder) return { missing: 'ELECTRON_OVERRIDE_DIST_PATH names no runtime' };
  const file = path.join(folder, 'electron');
  if (!existsSync(file)) return { missing: `there is no ${file}` };
  if (!existsSync('/usr/bin/Xvfb')) return { missing: 'Xvfb is not installed' };
  return { file };
}

export interface Display {
  readonly name: string;
  close(): void;
}

/** A screen of its own, on whichever number is free. */
export async function openDisplay(): Promise<Display> {
  const server: ChildProcess = spawn(
    '/usr/bin/Xvfb',
    ['-displayfd', '3', '-screen', '0', '1500x1000x24', '-nolisten', 'tcp'],
    {
      stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
    },
  );
  const number = await new Promise<string>((resolve, reject) => {
    server.once('error', reject);
    server.once('exit', (code) => reject(new Error(`Xvfb ended with code ${code}`)));
    server.stdio[3]!.once('data', (text: Buffer) => resolve(text.toString().trim()));
  });
  return { name: `:${number}`, close: () => void server.kill() };
}

export interface Desktop {
  readonly app: ElectronApplication;
  readonly page: Page;
  /** What the runtime keeps. */
  readonly folder: string;
  close(): Promise<void>;
}

/** Root has no sandbox to offer. */
export const rootFlags = process.getuid?.() === 0 ? ['--no-sandbox'] : [];

/** The desktop window, with a folder of its own for what the runtime keeps. @param words  more of its command line */
export async function openDesktop(runtime: string, display: Display, words: readonly string[] = []): Promise<Desktop> {
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-desktop-test-'));
  const app = await _electron.launch({
    executablePath: runtime,
    // A camera to be refused: without one, nobody is asked.
    args: [
      ...rootFlags,
      path.resolve('.'),
      `--user-data-dir=${folder}`,
      `--book=${path.join(folder, 'book')}`,
      ...words,
      '--use-fake-device-for-media-stream',
    ],
    env: { ...(process.env as Record<string, string>), DISPLAY: display.name },
  });
  const page = await app.firstWindow();
  await page.waitForLoadState('load');
  return {
    app,
    page,
    folder,
    async close() {
      await app.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
