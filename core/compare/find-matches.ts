import type { Match } from '../contract/comparison';
import type { ComparedWindow } from './compared-window';
import { isTooDark } from './luminance-difference';
import { matchInPhoto, matchOfPhotos } from './matches';

/** A window as one photo shows it, of a trial or of the reference. */
export interface ShownWindow extends ComparedWindow {
  readonly role: 'trial' | 'reference';
}

type Couple = readonly [ShownWindow, ShownWindow];

/** Windows of one photo, each once; of one that trial and reference share the reference's, whose light is stated best. */
function windowsByPhoto(shown: readonly ShownWindow[]): ShownWindow[][] {
  const photos = new Map<string, Map<string, ShownWindow>>();
  for (const one of shown) {
    const { photos: [photo], window } = one.reading; // prettier-ignore
    const windows = photos.get(photo.sha256) ?? new Map<string, ShownWindow>();
    if (one.role === 'reference' || !windows.has(window)) windows.set(window, one);
    photos.set(photo.sha256, windows);
  }
  return [...photos.values()].map((windows) => [...windows.values()]);
}

function couplesOf(windows: readonly ShownWindow[], order: readonly string[]): Couple[] {
  const place = ({ reading }: ShownWindow): number => order.indexOf(reading.window);
  const sorted = [...windows].sort((a, b) => place(a) - place(b));
  return sorted.flatMap((a, i) => sorted.slice(i + 1).map((b): Couple => [a, b]));
}

/** The trials that show them; the reference's name only when nothing else does. */
function nameOf([a, b]: Couple): string {
  const names = [a, b]
    .map(({ role, reading }) => (role === 'trial' ? reading.name : null))
    .filter((name) => name !== null);
  const [first, second] = names.length > 0 ? names : [a.reading.name];
  return second === undefined || second === first ? first : `${first} / ${second}`;
}

/** The window of a couple whose own lamp is off; null when both are lit. */
function darkOne([a, b]: Couple, { leak, brighter }: Match): ShownWindow | null {
  if (leak.value !== null) return brighter === a.reading.window ? b : a;
  return [a, b].find(isTooDark) ?? null;
}

/**
 * How alike the windows of a series are: those of one photo; and those that no photo shows lit together, from two photos.
 *
 * @param order names of the windows, in the order of the series
 * @source our own choice
 * @rule PR8
 */
export function findMatches(shown: readonly ShownWindow[], order: readonly string[]): Match[] {
  const inPhotos = windowsByPhoto(shown).flatMap((windows) =>
    couplesOf(windows, order).map((couple) => ({ couple, match: matchInPhoto(nameOf(couple), ...couple) })),
  );
  const dark = new Set(inPhotos.map(({ couple, match }) => darkOne(couple, match)));
  const areLitTogether = (windows: string): boolean =>
    inPhotos.some(({ couple, match }) => match.windows.join('\n') === windows && darkOne(couple, match) === null);
  const trials = shown.filter((one) => one.role === 'trial' && !dark.has(one));
  const apart = couplesOf(trials, order).filter(
    ([a, b]) =>
      a.reading.window !== b.reading.window &&
      a.reading.photos[0].sha256 !== b.reading.photos[0].sha256 &&
      !areLitTogether([a.reading.window, b.reading.window].join('\n')),
  );
  return [...inPhotos.map(({ match }) => match), ...apart.map((couple) => matchOfPhotos(nameOf(couple), ...couple))];
}
