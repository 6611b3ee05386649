import type { SavedFile } from '../../core/contract/bench';

/** Hands files to the user: the browser downloads them, the desktop window asks where to. */
export function saveFiles(files: readonly SavedFile[]): void {
  for (const { name, mediaType, bytes } of files) {
    const address = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: mediaType }));
    const link = document.createElement('a');
    link.href = address;
    link.download = name;
    link.click();
    // The download has its own hold on the data by then.
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  }
}
