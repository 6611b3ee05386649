import { protocol } from 'electron';
import { readPageFile, safetyHeaders } from '../core/node/bench/page-files';
import { pageAddress } from './channels';

/** Must be called before the program is ready. */
export function registerPageScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ]);
}

/** Gives the page its own files, and nothing else of the disk. @rule BE12 */
export function servePage(pageFolder: string): void {
  protocol.handle('app', async (request) => {
    const headers = { ...safetyHeaders };
    const nothing = new Response(null, { status: 404, headers });
    if (request.method !== 'GET' || !request.url.startsWith(pageAddress)) return nothing;
    const file = await readPageFile(pageFolder, new URL(request.url).pathname);
    if (!file) return nothing;
    return new Response(new Uint8Array(file.bytes), { headers: { ...headers, 'content-type': file.mediaType } });
  });
}
