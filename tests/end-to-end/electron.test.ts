import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BenchError, BenchPhoto, Hello, MeasuredPhoto, ScreenPixels } from '../../core/contract/bench';
import { verbs } from '../../electron/channels';
import { measureAsked } from '../support/bench-asked';
import { desktopRuntime, openDesktop, openDisplay, rootFlags, type Desktop, type Display } from '../support/desktop';

const runtime = desktopRuntime();
const missing = 'missing' in runtime ? ` (skipped: ${runtime.missing})` : '';

/** What the page holds; the tests speak to it as the page does. */
type Bench = Record<string, (...given: unknown[]) => Promise<{ answer?: unknown; error?: BenchError }>>;
declare const evendialBench: Bench;

describe.skipIf('missing' in runtime)(`the desktop window${missing}`, () => {
  let display: Display;
  let desktop: Desktop;
  const folder = mkdtempSync(path.join(tmpdir(), 'evendial-electron-test-'));

  beforeAll(async () => {
    display = await openDisplay();
    desktop = await openDesktop('file' in runtime ? runtime.file : '', display);
  });
  afterAll(async () => {
    await desktop?.close();
    display?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  let calls = 0;
  const ask = (verb: string, asks: unknown): Promise<{ answer?: unknown; error?: BenchError }> =>
    desktop.page.evaluate(([name, call, given]) => evendialBench[name](call, given), [
      verb,
      `t${++calls}`,
      asks,
    ] as const);
  const answerOf = async <T>(verb: string, asks: unknown): Promise<T> => {
    const { answer, error } = await ask(verb, asks);
    expect(error).toBeUndefined();
    return answer as T;
  };
  const lay = async (name = 't60-warm-white-bare.jpg'): Promise<BenchPhoto> =>
    (await answerOf<BenchPhoto[]>('addSamples', { names: [name] }))[0];

  it('[BE12] shows the page, and answers its verbs', async () => {
    expect(desktop.page.url()).toBe('app://main/');
    expect(await answerOf<Hello>('hello', {})).toMatchObject({ shell: 'desktop', version: '0.1.0' });
    const photo = await lay();
    const { reading } = await answerOf<MeasuredPhoto>('measure', measureAsked(photo.id));
    expect(reading.evenness.score.value).toBeGreaterThan(0);
    const size = await desktop.page.evaluate(async (id) => {
      const { answer } = await evendialBench['pixels']('px', { photo: id, mostSidePx: 200, region: null });
      const { rgba, width } = answer as ScreenPixels;
      return [rgba.constructor.name, rgba.length / width];
    }, photo.id);
    expect(size).toEqual(['Uint8ClampedArray', 320]);
  });

  it('[BE12] takes photos by the file that the user chose, and by the bytes of one that the page made', async () => {
    await desktop.page.evaluate(() => {
      const input = document.createElement('input');
      input.type = 'file';
      input.id = 'chosen-in-test';
      document.body.append(input);
    });
    await desktop.page.setInputFiles('#chosen-in-test', path.resolve('samples/photos/m4-amber.jpg'));
    const [chosen, made] = await desktop.page.evaluate(async () => {
      const file = document.querySelector<HTMLInputElement>('#chosen-in-test')!.files![0];
      document.querySelector('#chosen-in-test')!.remove();
      return [await evendialBench['addPhoto'](file), await evendialBench['addPhoto'](new File(['words'], 'made.jpg'))];
    });
    expect(chosen.answer).toMatchObject({ name: 'm4-amber.jpg', sizeBytes: 44903 });
    expect(made.answer).toMatchObject({ name: 'made.jpg', sizeBytes: 5 });
    expect(JSON.stringify(await answerOf('hello', {}))).not.toContain(path.resolve('samples'));
    const { error } = await ask('find', { photo: (made.answer as BenchPhoto).id });
    expect(error).toMatchObject({ kind: 'photo', code: 'PHOTO_FORMAT_UNSUPPORTED' });
  });

  it('[BE12] an engine that is killed takes its call along, and starts again', async () => {
    const { id } = await lay();
    const told = desktop.page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          const bench = evendialBench as unknown as {
            onEvent(listener: (event: { type: string }) => void): () => void;
          };
          const stop = bench.onEvent(({ type }) => {
            if (type !== 'engine-stopped') return;
            stop();
            resolve(type);
          });
        }),
    );
    const doomed = ask('measure', measureAsked(id));
    const killed = await desktop.app.evaluate(async ({ app }) => {
      const isEngine = ({ name }: { name?: string }): boolean => name === 'Evendial engine';
      const engines = app.getAppMetrics().filter((one) => isEngine(one as { name?: string }));
      for (const { pid } of engines) process.kill(pid, 'SIGKILL');
      return engines.length;
    });
    expect(killed).toBeGreaterThan(0);
    expect((await doomed).error).toMatchObject({ kind: 'engine-stopped', code: 'ENGINE_STOPPED' });
    expect(await told).toBe('engine-stopped');
    expect(await answerOf('find', { photo: id })).toMatchObject({ widthPx: 1600 });
  });

  it('[BE12] saves what the page made where the user says, and nothing from elsewhere', async () => {
    const place = path.join(folder, 'reading.csv');
    // In place of the dialog, which no test can press.
    const saved = desktop.app.evaluate(
      ({ session }, file) =>
        new Promise<string>((resolve) => {
          session.defaultSession.once('will-download', (_, item) => {
            item.setSavePath(file);
            item.once('done', (_event, state) => resolve(state));
          });
        }),
      place,
    );
    await desktop.page.evaluate(() => {
      const link = document.createElement('a');
      link.href = URL.createObjectURL(new Blob(['name,score\n'], { type: 'text/csv' }));
      link.download = 'reading.csv';
      link.click();
    });
    expect(await saved).toBe('completed');
    expect(readFileSync(place, 'utf8')).toBe('name,score\n');
    const others = await desktop.app.evaluate(async ({ BrowserWindow, session }) => {
      let begun = 0;
      const count = (event: Electron.Event): void => void (begun += event.defaultPrevented ? 0 : 1);
      session.defaultSession.on('will-download', count);
      BrowserWindow.getAllWindows()[0].webContents.downloadURL('app://main/main.js');
      await new Promise((resolve) => setTimeout(resolve, 500));
      session.defaultSession.off('will-download', count);
      return begun;
    });
    expect(others).toBe(0);
  });

  it('[BE22, BE12] opened with a unit in one file, it takes it into the book; so does a second start, in the first window, which says what it cannot do; a signal from outside ends it with all its helpers', async () => {
    const file = 'file' in runtime ? runtime.file : '';
    const other = await openDesktop(file, display, [path.resolve('samples/larkfield-m4.evendial')]);
    try {
      const foot = other.page.locator('.foot .said');
      await expect.poll(() => foot.innerText(), { timeout: 60_000 }).toContain('Larkfield M-4 has come into the book');
      const startAgain = async (...words: string[]): Promise<void> => {
        const flags = [...rootFlags, path.resolve('.'), `--user-data-dir=${other.folder}`];
        const env = { ...process.env, DISPLAY: display.name };
        const second = spawn(file, [...flags, ...words], { cwd: 'samples', env, stdio: 'ignore' });
        await new Promise((resolve) => second.once('exit', resolve));
      };
      await startAgain('larkfield-t60.evendial', '--watch=photos', `--book=${path.join(other.folder, 'book')}`);
      await expect.poll(() => foot.innerText(), { timeout: 60_000 }).toContain('Larkfield T-60 has come into the book');
      // Both as they are called from where the second start stands.
      const watched = (): Promise<unknown> =>
        other.page.evaluate(async () => (await evendialBench['watchRead']('w', { after: 0 })).answer);
      await expect.poll(watched, { timeout: 20_000 }).toMatchObject({ watch: { folder: 'photos', gone: null } });

      await other.app.evaluate(({ dialog }) => {
        const told: string[] = [];
        Object.assign(globalThis, { told });
        dialog.showMessageBox = (...given: unknown[]) => {
          const { message, detail } = given.at(-1) as { message: string; detail: string };
          told.push(message, detail);
          return Promise.resolve({ response: 0, checkboxChecked: false });
        };
      });
      const told = (): Promise<string[]> =>
        other.app.evaluate(() => (globalThis as unknown as { told: string[] }).told);
      await startAgain('--book=another book', '--watch=sets');
      await expect
        .poll(told, { timeout: 20_000 })
        .toEqual([
          'Another book is open in this window.',
          expect.stringContaining(`${path.resolve('samples', 'another book')} was not opened`) as string,
        ]);
      expect(await watched()).toMatchObject({ watch: { folder: 'photos' } });
      await startAgain('--watch=nowhere');
      await expect.poll(told, { timeout: 20_000 }).toContain('The folder nowhere cannot be watched: it is not there.');

      const pids = await other.app.evaluate(async ({ app }) => app.getAppMetrics().map(({ pid }) => pid));
      const ended = new Promise((resolve) => other.app.process().once('exit', resolve));
      other.app.process().kill('SIGTERM');
      expect(await ended).toBe(0);
      const living = (): number[] => pids.filter((pid) => existsSync(`/proc/${pid}`));
      await expect.poll(living, { timeout: 5000 }).toEqual([]);
    } finally {
      await other.close();
    }
  }, 180_000);

  it('[BE11] evendial start opens it, says what root has to know, and Ctrl-C closes it', async () => {
    const env = { ...process.env, DISPLAY: display.name, XDG_CONFIG_HOME: folder, XDG_DATA_HOME: folder };
    const program = spawn(process.execPath, ['dist/evendial.cjs', 'start'], { env, stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    for (const stream of [program.stdout, program.stderr])
      stream.on('data', (text: Buffer) => (said += text.toString()));
    const ended = new Promise((resolve) => program.once('exit', resolve));
    // The page keeps how it looks: then it has come up.
    const kept = (): string[] => readdirSync(folder, { recursive: true }).map(String);
    await expect
      .poll(kept, { timeout: 30_000 })
      .toContainEqual(expect.stringMatching(/Local Storage\/leveldb\/CURRENT$/));
    program.kill('SIGINT');
    expect([0, 130]).toContain(await ended);
    expect(said).toMatch(rootFlags.length > 0 ? /^You are root, .*\n$/ : /^$/);
  });

  describe('by the numbers of the Electron security checklist', () => {
    it('[BE12] 1, 6: loads its own files only, over no network', async () => {
      const refused = await desktop.page.evaluate(async () => {
        const tries = ['https://example.test/', 'http://127.0.0.1:9/', 'file:///etc/passwd', 'app://other/index.html'];
        const got = await Promise.allSettled(tries.map((address) => fetch(address)));
        const script = new Promise((resolve) => {
          const element = document.createElement('script');
          element.src = 'https://example.test/x.js';
          element.onload = () => resolve('loaded');
          element.onerror = () => resolve('refused');
          document.head.append(element);
        });
        return [...got.map(({ status }) => status), await script];
      });
      expect(refused).toEqual(['rejected', 'rejected', 'rejected', 'rejected', 'refused']);
      const outside = await desktop.page.evaluate(async () => {
        const places = ['/../package.json', '/%2e%2e/package.json', '/..%2f..%2fpackage.json', '/main.js.map'];
        return Promise.all(places.map(async (place) => (await fetch(place)).status));
      });
      expect(outside).toEqual([404, 404, 404, 404]);
    });

    it('[BE12] 2, 3, 4: the page has no Node, an own world, and a sandbox', async () => {
      const world = await desktop.page.evaluate(() => [
        typeof (globalThis as Record<string, unknown>)['require'],
        typeof (globalThis as Record<string, unknown>)['process'],
        typeof (globalThis as Record<string, unknown>)['Buffer'],
        typeof (globalThis as Record<string, unknown>)['electron'],
      ]);
      expect(world).toEqual(['undefined', 'undefined', 'undefined', 'undefined']);
      const offered = await desktop.page.evaluate(() => Object.keys(evendialBench).sort());
      expect(offered).toEqual([...verbs, 'addPhoto', 'onEvent'].sort());
      const set = await desktop.app.evaluate(({ BrowserWindow }) => {
        const contents = BrowserWindow.getAllWindows()[0].webContents as Electron.WebContents & {
          getLastWebPreferences(): Electron.WebPreferences;
        };
        const { sandbox, contextIsolation, nodeIntegration, webSecurity, webviewTag } =
          contents.getLastWebPreferences();
        return { sandbox, contextIsolation, nodeIntegration, webSecurity, webviewTag };
      });
      expect(set).toEqual({
        sandbox: true,
        contextIsolation: true,
        nodeIntegration: false,
        webSecurity: true,
        webviewTag: false,
      });
    });

    it('[BE12] 5: no permission is given', async () => {
      const answers = await desktop.page.evaluate(async () => {
        const camera = await navigator.mediaDevices.getUserMedia({ video: true }).then(
          () => 'given',
          ({ name }: Error) => name,
        );
        const place = await new Promise((resolve) =>
          navigator.geolocation.getCurrentPosition(
            () => resolve('given'),
            ({ code }) => resolve(code),
          ),
        );
        return [camera, place, await Notification.requestPermission()];
      });
      expect(answers).toEqual(['NotAllowedError', 1, 'denied']);
    });

    it('[BE12] 7: its policy refuses evaluated and written-in scripts', async () => {
      const run = await desktop.page.evaluate(async () => {
        const element = document.createElement('script');
        element.textContent = 'window.writtenIn = true';
        document.head.append(element);
        const policy = (await fetch('/')).headers.get('content-security-policy') ?? '';
        return [(window as unknown as { writtenIn?: boolean }).writtenIn ?? false, policy];
      });
      expect(run[0]).toBe(false);
      expect(run[1]).toContain("default-src 'none'");
      expect(run[1]).not.toMatch(/unsafe/);
    });

    it('[BE12] 11, 12: no webview comes up', async () => {
      const count = async (): Promise<number> =>
        desktop.app.evaluate(({ webContents }) => webContents.getAllWebContents().length);
      const before = await count();
      await desktop.page.evaluate(() => {
        const view = document.createElement('webview');
        view.setAttribute('src', 'https://example.test/');
        document.body.append(view);
      });
      await desktop.page.waitForTimeout(300);
      expect(await count()).toBe(before);
    });

    it('[BE12] 13, 14: it goes nowhere and opens nothing', async () => {
      const opened = await desktop.page.evaluate(() => window.open('app://main/') === null);
      expect(opened).toBe(true);
      for (const address of ['https://example.test/', 'app://main/other.html', 'file:///etc/passwd']) {
        await desktop.page.evaluate((to) => {
          location.href = to;
        }, address);
        await desktop.page.waitForTimeout(200);
        expect(desktop.page.url()).toBe('app://main/');
      }
      expect(await desktop.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)).toBe(1);
    });

    it('[BE12] 17: another window gets no answer, an unknown channel has none, and wrong values are refused', async () => {
      const preload = path.join(folder, 'foreign.cjs');
      writeFileSync(
        preload,
        `const { ipcRenderer } = require('electron');
         window.addEventListener('DOMContentLoaded', async () => {
           const got = await ipcRenderer.invoke('bench:hello', 'x', {}).catch((error) => String(error));
           const other = await ipcRenderer.invoke('bench:open', 'x', {}).catch((error) => String(error));
           document.title = JSON.stringify([got, other]);
         });`,
      );
      const title = await desktop.app.evaluate(async ({ BrowserWindow }, file) => {
        const foreign = new BrowserWindow({ show: false, webPreferences: { preload: file, sandbox: true } });
        const titled = new Promise<string>((resolve) => {
          foreign.webContents.on('page-title-updated', (_, text) => {
            if (text.startsWith('[')) resolve(text);
          });
        });
        await foreign.loadURL('app://main/');
        const text = await titled;
        foreign.destroy();
        return text;
      }, preload);
      const [refused, unknown] = JSON.parse(title) as [{ error: BenchError }, string];
      expect(refused.error.code).toBe('SENDER_REFUSED');
      expect(unknown).toContain('No handler registered');
      expect((await ask('find', { photo: '../../etc/passwd' })).error?.code).toBe('PHOTO_NOT_ON_BENCH');
      expect((await ask('pixels', 'everything')).error?.code).toBe('ASKED_WRONGLY');
      const named = await desktop.page.evaluate(() => evendialBench['hello']('a/b', {}));
      expect(named.error?.code).toBe('ASKED_WRONGLY');
    });
  });
});
