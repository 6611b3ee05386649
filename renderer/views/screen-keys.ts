import type { Bench } from '../state/bench';
import { stations } from '../state/bench-state';
import type { Look } from '../state/look';

/** Every key of the bench, for the foot line and the list of keys. */
export const keyList: readonly (readonly [string, string])[] = [
  ['Ctrl O', 'open photos'],
  ['Ctrl V', 'paste a photo'],
  ['1 2 3 4', 'Photo, Outline, Reading, Compare'],
  ['↑ ↓', 'photo above or below in the stack'],
  ['Ctrl Z', 'undo the last change'],
  ['Ctrl Shift Z', 'do it again'],
  ['L', 'take a dark photo of the watched folder as lamp-off photo'],
  ['S', 'grey round the photo'],
  ['T', 'dark or light theme'],
  ['+ − 0', 'enlarge, reduce, whole window'],
  ['?', 'this list'],
];

/** Keys go to what is being typed in. */
export function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input, select, textarea, [contenteditable]');
}

/** Whether keys without Ctrl act; see Look. */
export function doPlainKeysAct(): boolean {
  return document.documentElement.dataset['plainKeys'] !== 'off';
}

function step(bench: Bench, by: number): void {
  const { photos, selected } = bench.state.value;
  const next = photos[photos.findIndex(({ id }) => id === selected) + by];
  if (next) bench.select(next.id);
}

/** Does what a key asks for. @returns whether it was a key of ours */
export function actOnKey(event: KeyboardEvent, bench: Bench, look: Look, open: () => void, help: () => void): boolean {
  const key = event.key.toLowerCase();
  if (event.ctrlKey || event.metaKey) {
    if (key === 'o') open();
    else if (key === 'z' && event.shiftKey) bench.redo();
    else if (key === 'z') bench.undo();
    else return false;
    return true;
  }
  if (isTyping(event.target) || event.altKey) return false;
  if (key.length === 1 && !doPlainKeysAct()) return false;
  const station = stations[Number(key) - 1];
  if (station && bench.state.value.photos.length > 0) bench.goTo(station);
  else if (key === 's') look.nextSurround();
  else if (key === 't') look.otherTheme();
  else if (key === 'l' && bench.watch.verdict.value?.kind === 'dark')
    bench.watch.takeAsLampOff(bench.watch.verdict.value.photo);
  else if (key === '?') help();
  else if (key === 'arrowup' && !(event.target instanceof SVGElement)) step(bench, -1);
  else if (key === 'arrowdown' && !(event.target instanceof SVGElement)) step(bench, 1);
  else return false;
  return true;
}
