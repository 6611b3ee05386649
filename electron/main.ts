// The desktop window: puts the parts together.
import { app, dialog, session, type BrowserWindow } from 'electron';
import path from 'node:path';
import { AppError } from '../core/base/errors';
import { createBenchHost } from '../core/node/bench/host';
import { Book } from '../core/node/book/book';
import { bookFolder } from '../core/node/book/book-folder';
import { photoUpload, Uploads } from '../core/node/bench/uploads';
import { defaultPhotoLimits } from '../core/node/decode/photo-limits';
import { createDecoder } from '../core/node/decode-process';
import { answerPage } from './bench-ipc';
import { closeNavigation, closeSession } from './closed-doors';
import { startUtilityDecoder, startUtilityEngine } from './helper-processes';
import { registerPageScheme, servePage } from './page-protocol';
import { readStartWords } from './start-words';
import { openWindow, setMenu } from './window';

const home = path.resolve(__dirname, '..', '..');

function tellDefect(error: unknown): void {
  console.error(error instanceof Error ? (error.stack ?? error.message) : String(error));
}

/** On a Mac files come as events, from before the program is ready. */
const opened: string[] = [];
let openNow = (file: string): void => void opened.push(file);
app.on('open-file', (event, file) => {
  event.preventDefault();
  openNow(file);
});

async function start(): Promise<void> {
  await app.whenReady();
  let window: BrowserWindow | null = null;
  const asked = readStartWords(process.argv.slice(1), process.cwd());
  const book = new Book(bookFolder(asked.book ?? undefined, process.cwd()));
  const uploads = new Uploads(photoUpload(defaultPhotoLimits.fileBytes));
  const host = createBenchHost({
    shell: 'desktop',
    version: app.getVersion(),
    samplesFolder: path.join(home, 'samples'),
    book,
    startEngine: startUtilityEngine,
    decoder: createDecoder({
      childFile: path.join(__dirname, '..', 'decode-child.cjs'),
      startChild: startUtilityDecoder,
    }),
    onRemoved: (place) => void uploads.forget(place),
    async chooseFolder() {
      if (window === null) return null;
      const title = 'Folder whose new photos are measured';
      const { filePaths } = await dialog.showOpenDialog(window, { title, properties: ['openDirectory'] });
      return filePaths.at(0) ?? null;
    },
    onDefect: tellDefect,
  });
  const open = (): void => {
    window = openWindow();
    window.once('closed', () => {
      window = null;
    });
  };
  const say = (message: string, detail: string): void => {
    const words = { type: 'info', message, detail } as const;
    void (window === null ? dialog.showMessageBox(words) : dialog.showMessageBox(window, words)).catch(tellDefect);
  };
  const watch = (folder: string): Promise<unknown> =>
    host.watchFolder(folder).catch((error: unknown) => {
      if (!(error instanceof AppError)) return tellDefect(error);
      say(`${error.message.charAt(0).toUpperCase()}${error.message.slice(1)}.`, error.remedy);
    });
  closeSession(session.defaultSession);
  servePage(path.join(home, 'dist', 'renderer'));
  answerPage({ host, uploads, page: () => window?.webContents ?? null, onDefect: tellDefect });
  setMenu();
  open();
  window!.webContents.once('did-finish-load', () => void host.warmUp().catch(tellDefect));
  for (const file of [...opened, ...asked.archives]) host.openArchive(file);
  openNow = host.openArchive;
  if (asked.watch !== null) await watch(asked.watch);
  app.on('activate', () => {
    if (window === null) open();
  });
  app.on('second-instance', (_event, words, folder) => {
    const second = readStartWords(words.slice(1), folder);
    if (window?.isMinimized()) window.restore();
    window?.focus();
    const isOther = second.book !== null && path.relative(book.folder, second.book) !== '';
    if (isOther) {
      // What came with it was meant for the other book.
      const detail = `${second.book} was not opened, and nothing was changed. To open it, close Evendial and start it again.`;
      return say('Another book is open in this window.', detail);
    }
    second.archives.forEach(host.openArchive);
    if (second.watch !== null) void watch(second.watch);
  });
  app.on('will-quit', (event) => {
    event.preventDefault();
    // Not `quit` again: after a signal from outside it is not heard a second time.
    void Promise.all([host.close(), uploads.close()])
      .catch(tellDefect)
      .finally(() => app.exit(0));
  });
  app.on('window-all-closed', () => app.quit());
}

// As root there is no sandbox to be had, and asking for it would bring the program down again and again.
if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
registerPageScheme();
closeNavigation();
if (app.requestSingleInstanceLock()) {
  start().catch((error: unknown) => {
    tellDefect(error);
    app.exit(1);
  });
} else {
  app.quit();
}
