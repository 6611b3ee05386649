import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { chooseStart, type Machine } from '../../../core/node/cli/start-choice';

const home = mkdtempSync(path.join(tmpdir(), 'evendial-start-test-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const runtime = path.join(home, 'runtime');
mkdirSync(runtime);
writeFileSync(path.join(runtime, 'electron'), '');
const withBoth: Machine = {
  platform: 'linux',
  env: { ELECTRON_OVERRIDE_DIST_PATH: runtime, DISPLAY: ':7' },
  isRoot: false,
  home,
};

describe('chooseStart', () => {
  it('[BE11] opens the window where there are a runtime and a display', () => {
    const file = path.join(runtime, 'electron');
    expect(chooseStart(withBoth)).toEqual({ kind: 'window', runtime: file, flags: [], reason: null });
    const wayland = { ...withBoth.env, DISPLAY: '', WAYLAND_DISPLAY: 'wayland-0' };
    expect(chooseStart({ ...withBoth, env: wayland }).kind).toBe('window');
  });

  it('[BE11] leaves the sandbox out for root only, and says so', () => {
    expect(chooseStart({ ...withBoth, isRoot: true })).toMatchObject({
      flags: ['--no-sandbox'],
      reason: expect.stringMatching(/root.*sandbox/),
    });
  });

  it.each([
    ['no display', { ...withBoth, env: { ELECTRON_OVERRIDE_DIST_PATH: runtime } }, /no display/],
    [
      'no runtime where one was named',
      { ...withBoth, env: { ELECTRON_OVERRIDE_DIST_PATH: '/nowhere', DISPLAY: ':7' } },
      /\/nowhere/,
    ],
    ['no runtime at all', { ...withBoth, env: { DISPLAY: ':7' } }, /has not fetched/],
    ['the runtime of another system', { ...withBoth, platform: 'win32' as const }, /missing/],
  ])('[BE11] serves the bench with %s, and says why', (_, machine: Machine, why) => {
    const choice = chooseStart(machine);
    expect(choice.kind).toBe('serve');
    expect(choice.reason).toMatch(why);
  });

  it('[BE11] takes the runtime that the electron package has fetched', () => {
    const fetched = path.join(home, 'node_modules', 'electron', 'dist');
    mkdirSync(fetched, { recursive: true });
    writeFileSync(path.join(fetched, 'electron'), '');
    writeFileSync(path.join(fetched, '..', 'path.txt'), 'electron');
    const choice = chooseStart({ ...withBoth, env: { DISPLAY: ':7' } });
    expect(choice).toMatchObject({ kind: 'window', runtime: path.join(fetched, 'electron') });
  });
});
