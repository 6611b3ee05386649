import type { Bench } from '../state/bench';
import { stations } from '../state/bench-state';
import type { Look } from '../state/look';
import { unitViews } from '../state/place';
import type { BookAround } from './book-context';

/** Every key of the screens, for the foot line and the list of keys. */
export const keyList: readonly (readonly [string, string])[] = [
  ['U', 'units, and back to the bench'],
  ['Ctrl O', 'open photos or a unit file'],
  ['Ctrl V', 'paste a photo'],
  ['1 … 5', 'bench: Photo, Outline, Reading, Compare, Next change; unit: Windows, Facts, Time line, Record sheet'],
  ['↑ ↓', 'photo above or below in the stack; unit above or below in the book; cards of a unit'],
  ['F', 'file the photos of the bench into a unit'],
  ['/', 'search the units'],
  ['N', 'new unit'],
  ['C', 'unit: choose the trial in view'],
  ['Ctrl Z', 'undo the last change'],
  ['Ctrl Shift Z', 'do it again'],
  ['R', 'watched folder: the first photo shows the filament lamp'],
  ['L', 'the dark photo is the lamp-off photo'],
  ['B', 'station Compare: the one photo, then the other'],
  ['S', 'grey round the photo'],
  ['T', 'dark or light theme'],
  ['+ − 0', 'enlarge, reduce, whole window'],
  ['Esc', 'unit: back to all units'],
  ['?', 'this list'],
];

/** What a key may ask of the page beyond the bench and the book. */
export interface PageActs {
  readonly open: () => void;
  readonly file: () => void;
  readonly help: () => void;
}

/** Keys go to what is being typed in, or chosen from by its first letters. @rule SC35 */
export function isTyping(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('input, select, textarea, [contenteditable], dialog') !== null;
}

/** What has letters in it that Ctrl Z takes back by itself; a choice or a check mark has none. */
function isTextField(target: EventTarget | null): boolean {
  const other = ['checkbox', 'radio', 'range', 'button', 'file'].map((type) => `:not([type=${type}])`).join('');
  return target instanceof HTMLElement && target.matches(`input${other}, textarea, [contenteditable]`);
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

/** A field loses what is typed in it only when it has been left: Ctrl Z in it is the field's own. */
function undoOrRedo(event: KeyboardEvent, bench: Bench, { book, places }: BookAround): boolean {
  const place = places.now.value.at;
  if (place === 'units' || isTextField(event.target)) return false;
  const which = event.shiftKey ? 'redo' : 'undo';
  if (place === 'unit') void book.restore(which);
  else if (which === 'undo') bench.undo();
  else bench.redo();
  return true;
}

/** Presses a control that the screen in view has; a key of another screen does nothing. */
function press(selector: string): boolean {
  const control = document.querySelector<HTMLElement>(selector);
  if (!control) return false;
  control.focus();
  if (!(control instanceof HTMLInputElement)) control.click();
  return true;
}

const cardSteps: Readonly<Record<string, number>> = { arrowup: -1, arrowleft: -1, arrowdown: 1, arrowright: 1 };

/** From card to card of a unit. */
function stepCards(event: KeyboardEvent, by: number): boolean {
  const cards = [...document.querySelectorAll<HTMLElement>('.cards .card')];
  const at = cards.findIndex((card) => card === event.target);
  const next = at < 0 ? undefined : cards[at + by];
  next?.focus();
  return next !== undefined;
}

function actInBook(event: KeyboardEvent, key: string, { places }: BookAround): boolean {
  const place = places.now.value;
  if (place.at === 'units') return key === '/' ? press('[data-search]') : key === 'n' && press('[data-new-unit]');
  if (place.at !== 'unit') return false;
  const view = unitViews[Number(key) - 1];
  if (view) places.goTo({ ...place, view });
  else if (key === 'c') return press('[data-choose]');
  else if (key === 'escape') places.goTo({ at: 'units' });
  else return key in cardSteps && stepCards(event, cardSteps[key]);
  return true;
}

/** What the watched folder asks about its last photo. @returns whether it asks that */
function actOnWatchKey(key: string, { watch }: Bench): boolean {
  const told = watch.verdict.value;
  const dark = told?.kind === 'dark' ? told.photo : watch.nextDark();
  if (key === 'l' && dark !== null) watch.takeAsLampOff(dark);
  else if (key === 'r' && told?.kind === 'first') watch.takeAsReference(told.photo);
  else return false;
  return true;
}

function actOnBench(event: KeyboardEvent, key: string, bench: Bench, { file }: PageActs): boolean {
  const station = stations[Number(key) - 1];
  if (station && bench.state.value.photos.length > 0) bench.goTo(station);
  else if (key === 'f') file();
  else if (actOnWatchKey(key, bench)) return true;
  else if (key === 'arrowup' && !(event.target instanceof SVGElement)) step(bench, -1);
  else if (key === 'arrowdown' && !(event.target instanceof SVGElement)) step(bench, 1);
  else return false;
  return true;
}

/** Does what a key asks for. @returns whether it was a key of ours */
export function actOnKey(event: KeyboardEvent, bench: Bench, look: Look, around: BookAround, acts: PageActs): boolean {
  const key = event.key.toLowerCase();
  const { places } = around;
  // A question is answered first; Esc leaves it.
  if (document.querySelector('dialog[open]')) return false;
  if (event.ctrlKey || event.metaKey) {
    if (key === 'o') acts.open();
    else if (key === 'z') return undoOrRedo(event, bench, around);
    else return false;
    return true;
  }
  if (isTyping(event.target) || event.altKey) return false;
  if (key.length === 1 && !doPlainKeysAct()) return false;
  if (key === 's') look.nextSurround();
  else if (key === 't') look.otherTheme();
  else if (key === '?') acts.help();
  else if (key === 'u') places.goTo({ at: places.now.value.at === 'bench' ? 'units' : 'bench' });
  else if (places.now.value.at === 'bench') return actOnBench(event, key, bench, acts);
  else return actInBook(event, key, around);
  return true;
}
