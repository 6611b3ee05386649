import { app, type Session } from 'electron';
import { pageAddress } from './channels';

const ownAddresses = [pageAddress, `blob:${pageAddress}`];
const isOwn = (address: string): boolean => ownAddresses.some((own) => address.startsWith(own));

/** No page goes anywhere, opens anything, or holds another page. @source Electron security checklist, 12-14 @rule BE12 */
export function closeNavigation(): void {
  app.on('web-contents-created', (_, contents) => {
    contents.on('will-navigate', (event) => event.preventDefault());
    contents.on('will-redirect', (event) => event.preventDefault());
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
}

/** No permission for anything, no address but the page's own, no download but of what the page has made itself. @rule BE12 */
export function closeSession(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !isOwn(details.url) }));
  session.on('will-download', (event, item) => {
    if (!item.getURL().startsWith(`blob:${pageAddress}`)) event.preventDefault();
  });
}
