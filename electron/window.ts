import { BrowserWindow, Menu, type MenuItemConstructorOptions } from 'electron';
import path from 'node:path';
import { pageAddress } from './channels';

/** Everything that is safe by default is said here once more: defaults have changed before. @rule BE12 */
const webPreferences = {
  preload: path.join(__dirname, 'preload.cjs'),
  sandbox: true,
  contextIsolation: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webSecurity: true,
  allowRunningInsecureContent: false,
  experimentalFeatures: false,
  webviewTag: false,
  navigateOnDragDrop: false,
  spellcheck: false,
};

export function openWindow(): BrowserWindow {
  const window = new BrowserWindow({
    width: 1360,
    height: 900,
    minWidth: 480,
    minHeight: 400,
    show: false,
    backgroundColor: '#1c1c1c',
    title: 'Evendial',
    icon: path.join(__dirname, 'icon.png'),
    webPreferences,
  });
  window.once('ready-to-show', () => window.show());
  void window.loadURL(pageAddress);
  return window;
}

/** The usual editing and zooming keys, and nothing that leads out of the program. */
export function setMenu(): void {
  const view: MenuItemConstructorOptions = {
    label: 'View',
    submenu: [{ role: 'resetZoom' }, { role: 'zoomIn' }, { role: 'zoomOut' }, { role: 'togglefullscreen' }],
  };
  const own: MenuItemConstructorOptions[] = process.platform === 'darwin' ? [{ role: 'appMenu' }] : [];
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([...own, { role: 'fileMenu' }, { role: 'editMenu' }, view, { role: 'windowMenu' }]),
  );
}
