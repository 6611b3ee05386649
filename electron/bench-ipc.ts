import { ipcMain, type IpcMainInvokeEvent, type WebContents } from 'electron';
import path from 'node:path';
import { AppError } from '../core/base/errors';
import { hasArchiveEnding } from '../core/contract/archive-file';
import { archiveUpload } from '../core/node/bench/archives';
import { benchErrorOf } from '../core/node/bench/bench-error';
import type { BenchHost } from '../core/node/bench/host';
import type { Uploads } from '../core/node/bench/uploads';
import { addBytesChannel, addFileChannel, channelOf, eventChannel, pageAddress, verbs, type Sent } from './channels';

export interface BenchIpc {
  readonly host: BenchHost;
  readonly uploads: Uploads;
  /** The one page that may ask; null while there is none. */
  readonly page: () => WebContents | null;
  readonly onDefect: (error: unknown) => void;
}

/** Only the main frame of our own window, showing our own page. @source Electron security checklist, 17 @rule BE12 */
function checkSender(event: IpcMainInvokeEvent, page: WebContents | null): void {
  const { sender, senderFrame } = event;
  const isPage = page !== null && sender === page && senderFrame !== null && senderFrame === page.mainFrame;
  if (isPage && senderFrame.url.startsWith(pageAddress)) return;
  throw new AppError('usage', 'SENDER_REFUSED', 'Another page may not ask this.', 'Open Evendial again.');
}

function asText(value: unknown, what: string, pattern: RegExp): string {
  if (typeof value === 'string' && pattern.test(value)) return value;
  throw new AppError('usage', 'ASKED_WRONGLY', `The ${what} is none.`, 'Load the page again.');
}

/** Bytes of a photo that the page holds and no file. */
async function* oneOf(bytes: ArrayBuffer): AsyncIterable<Uint8Array> {
  yield new Uint8Array(bytes);
}

/** Answers the page's verbs. */
export function answerPage({ host, uploads, page, onDefect }: BenchIpc): void {
  const handle = (channel: string, work: (...given: unknown[]) => Promise<unknown>): void => {
    ipcMain.handle(channel, async (event, ...given: unknown[]): Promise<Sent> => {
      try {
        checkSender(event, page());
        return { answer: await work(...given) };
      } catch (error) {
        if (!(error instanceof AppError)) onDefect(error);
        return { error: benchErrorOf(error) };
      }
    });
  };
  for (const verb of verbs) {
    handle(channelOf(verb), (call, asks) => host.call(verb, asText(call, 'name of the call', /^[\w-]{1,64}$/), asks));
  }
  handle(addFileChannel, async (place) => {
    const file = asText(place, 'path', /./);
    if (!path.isAbsolute(file)) asText(null, 'path', /./);
    return host.addFile(file);
  });
  handle(addBytesChannel, async (given, bytes) => {
    const name = asText(given, 'name', /^.{1,400}$/s);
    if (!(bytes instanceof ArrayBuffer)) throw new TypeError('a photo without bytes');
    const place = await uploads.keep(name, oneOf(bytes), hasArchiveEnding(name) ? archiveUpload : undefined);
    try {
      return await host.addFile(place, name);
    } catch (error) {
      await uploads.forget(place);
      throw error;
    }
  });
  host.onEvent((event) => page()?.send(eventChannel, event));
}
