// All that the page can reach outside itself: one function a verb, photos by the File that the user chose, and events.
import { contextBridge, ipcRenderer, webUtils, type IpcRendererEvent } from 'electron';
import type { BenchEvent } from '../core/contract/bench';
import { addBytesChannel, addFileChannel, channelOf, eventChannel, verbs, type Sent } from './channels';

/** Where a file lies on the disk; empty for one that the page has made itself. The page never sees it. */
function placeOf(file: File): string {
  // Runtimes before 32 have no webUtils; theirs put the path on the file.
  if ((webUtils as typeof webUtils | undefined)?.getPathForFile) return webUtils.getPathForFile(file);
  return (file as File & { readonly path?: string }).path ?? '';
}

async function addPhoto(file: File): Promise<Sent> {
  const place = placeOf(file);
  if (place !== '') return (await ipcRenderer.invoke(addFileChannel, place)) as Sent;
  return (await ipcRenderer.invoke(addBytesChannel, file.name, await file.arrayBuffer())) as Sent;
}

const calls = Object.fromEntries(
  verbs.map((verb) => [verb, (call: string, asks: unknown) => ipcRenderer.invoke(channelOf(verb), call, asks)]),
);

contextBridge.exposeInMainWorld('evendialBench', {
  ...calls,
  addPhoto,
  onEvent(listener: (event: BenchEvent) => void): () => void {
    const forward = (_: IpcRendererEvent, event: BenchEvent): void => listener(event);
    ipcRenderer.on(eventChannel, forward);
    return () => void ipcRenderer.off(eventChannel, forward);
  },
});
