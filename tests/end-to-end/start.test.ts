import { spawn, type ChildProcessByStdio } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Readable } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { unpackValue } from '../../core/contract/packed';

let folder: string;
/** The user's own data folder. */
let data: string;
let program: ChildProcessByStdio<null, Readable, Readable>;
const said = { out: '', err: '' };

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial-start-test-'));
  data = mkdtempSync(path.join(tmpdir(), 'evendial-start-data-'));
  said.out = said.err = '';
});
afterEach(() => {
  program.kill('SIGKILL');
  for (const made of [folder, data]) rmSync(made, { recursive: true, force: true });
});

function run(...words: string[]): void {
  const env = { ...process.env, TMPDIR: folder, XDG_DATA_HOME: data, DISPLAY: '', WAYLAND_DISPLAY: '' };
  program = spawn(process.execPath, ['dist/evendial.cjs', ...words], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  program.stdout.on('data', (text: Buffer) => (said.out += text.toString()));
  program.stderr.on('data', (text: Buffer) => (said.err += text.toString()));
}
const ended = (): Promise<number | null> => new Promise((resolve) => program.once('exit', resolve));

/** Waits for the address, and asks the bench for its greeting with the token behind the #. */
async function greet(): Promise<{ port: string; token: string; greeting: unknown }> {
  const address = /http:\/\/127\.0\.0\.1:(\d+)\/#([\w-]{32,})/;
  await expect.poll(() => said.out, { timeout: 30_000 }).toMatch(address);
  const [, port, token] = address.exec(said.out)!;
  const response = await fetch(`http://127.0.0.1:${port}/call/hello`, {
    method: 'POST',
    headers: { 'x-evendial-token': token },
    body: JSON.stringify({ call: 'a', asks: {} }),
  });
  return { port, token, greeting: unpackValue(new Uint8Array(await response.arrayBuffer())) };
}

describe('evendial serve and start', () => {
  it('[BE11] serve prints an address that lets its page in, and Ctrl-C leaves nothing', async () => {
    run('serve');
    const { port, greeting, token } = await greet();
    expect(greeting).toMatchObject({ shell: 'browser' });
    const page = await (await fetch(`http://127.0.0.1:${port}/`)).text();
    expect(page).toContain('main.js');
    await fetch(`http://127.0.0.1:${port}/photos`, {
      method: 'POST',
      headers: { 'x-evendial-token': token, 'x-evendial-name': 'a.jpg' },
      body: 'words',
    });
    // Beside it the decoder may have its own, for the sample that is measured at the start.
    expect(readdirSync(folder).filter((name) => name.startsWith('evendial-bench-'))).toHaveLength(1);
    const end = ended();
    program.kill('SIGINT');
    expect([await end, readdirSync(folder), said.err]).toEqual([0, [], '']);
  });

  it('[BE11] start without a display says why and serves the bench', async () => {
    run('start');
    expect((await greet()).greeting).toMatchObject({ shell: 'browser' });
    expect(said.err).toMatch(/^No window: .*served to a browser instead\.\n$/s);
    expect(said.err).not.toMatch(/^ {4}at /m);
  });

  it('[BE11] a port that is taken, or none: exit 2', async () => {
    run('serve', '--port', '70000');
    expect(await ended()).toBe(2);
    run('serve');
    const { port } = await greet();
    const first = program;
    run('serve', '--port', port);
    expect(await ended()).toBe(2);
    expect(said.err).toContain(`port ${port} is taken`);
    first.kill('SIGKILL');
  });
});
