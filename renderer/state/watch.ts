import { signal } from '@preact/signals';
import type { PhotoAsked, PhotoId } from '../../core/contract/bench';
import type { CarriedOutline } from '../../core/contract/carry';
import type { WatchShown } from '../../core/contract/watch';
import { CallFailed } from '../link/bench-link';
import type { Bench } from './bench';
import {
  hasReading,
  isMeasured,
  type MeasuredPhotoOnBench,
  type PhotoOnBench,
  type ReadingSettings,
} from './bench-state';
import type { KeptSettings } from './kept-settings';
import { areExposedAlike, showSameWindow } from './same-window';
import { sizeSource, withWindow } from './settings';
import { bestOf, comparedVerdict, refusalOf, type WatchVerdict } from './watch-verdict';

/** An event may be missed while the line is broken: the folder is asked for anyway. */
const askEveryMs = 5000;
/** Less light than this of another photo's: its lamp may be off (SE8). */
const darkBelow = 0.15;
/** Windows that a photo is tried on before it counts as a new one. */
const mostWindows = 3;

/** How a photo's outline came about. */
interface Carried {
  /** The photo that it was carried over from, or should have been; null: there was none. */
  readonly source: MeasuredPhotoOnBench | null;
  readonly outline: CarriedOutline | null;
}

const isUnderWay = (photo: PhotoOnBench | null): boolean =>
  photo?.status.kind === 'waiting' || photo?.status.kind === 'measuring';

/** The window of a measured photo as it is asked to be found in another. */
function askedOf({ id, settings, reading }: MeasuredPhotoOnBench): PhotoAsked {
  const { kind } = reading.outline;
  const cornersPx = settings.window.cornersPx ?? reading.outline.cornersPx;
  const shape = settings.window.shape ?? (kind === 'ellipse' ? { kind } : null);
  const { window, light, helpers } = withWindow(settings, { cornersPx, shape });
  return { photo: id, window, light, helpers };
}

/** The watched folder: every photo that arrives is measured as the last one of its window, and compared with the best so far. */
export class Watch {
  /** null: no folder is watched. */
  readonly shown = signal<WatchShown | null>(null);
  /** Of the photo that arrived last. */
  readonly verdict = signal<WatchVerdict | null>(null);
  /** Dark photos that may be lamp-off photos, until the user says. */
  readonly darkPhotos = signal<readonly PhotoId[]>([]);
  #after = 0;
  #isReading = false;
  #isAskedAgain = false;
  #judging: Promise<void> = Promise.resolve();
  /** Reading that the line was last told of. */
  #judged: MeasuredPhotoOnBench['reading'] | null = null;
  readonly #carried = new Map<PhotoId, Carried>();
  /** The last photo whose outline is known to be right. */
  #last: PhotoId | null = null;

  constructor(readonly bench: Bench) {
    bench.link.onEvent((event) => {
      if (event.type === 'watch') void this.read();
    });
  }

  /** Photos that arrived while nobody looked: they are laid as if they arrived now. */
  async arriving(kept: KeptSettings): Promise<ReadonlySet<PhotoId>> {
    const { photos } = await this.bench.link.call('watchRead', { after: 0 });
    return new Set(photos.filter(({ id }) => !kept.of(id)?.window.cornersPx).map(({ id }) => id));
  }

  async start(): Promise<void> {
    this.bench.state.subscribe(() => this.#judgeAgain());
    await this.read();
    setInterval(() => {
      if (this.shown.value) void this.read();
    }, askEveryMs);
  }

  /** Lays what has arrived. Asked for while it is under way, it is done once more. */
  async read(): Promise<void> {
    if (this.#isReading) {
      this.#isAskedAgain = true;
      return;
    }
    this.#isReading = true;
    try {
      const { watch, photos, upTo } = await this.bench.link.call('watchRead', { after: this.#after });
      this.#after = upTo;
      this.shown.value = watch;
      const arrived = photos.filter(({ id }) => !this.bench.photo(id));
      if (arrived.length > 0) this.bench.layArrived(arrived);
      for (const { id } of arrived) this.#judging = this.#judging.then(() => this.#arrive(id));
    } catch (error) {
      // The host is away; whatever else is asked of it says so.
      if (!(error instanceof CallFailed)) throw error;
    } finally {
      this.#isReading = false;
    }
    if (this.#isAskedAgain) {
      this.#isAskedAgain = false;
      await this.read();
    }
  }

  /** Has the user choose the folder. */
  async choose(): Promise<void> {
    await this.#ask('watchChoose');
  }

  async stop(): Promise<void> {
    await this.#ask('watchStop');
    this.verdict.value = null;
  }

  async #ask(verb: 'watchChoose' | 'watchStop'): Promise<void> {
    try {
      await this.bench.link.call(verb, {});
      await this.read();
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      this.bench.say(`${error.message} ${error.remedy}`);
    }
  }

  async #arrive(id: PhotoId): Promise<void> {
    const photo = this.bench.photo(id);
    if (!photo) return;
    this.bench.follow(id);
    this.verdict.value = { photo: id, name: photo.name, kind: 'working' };
    if (photo.settings.window.cornersPx === null) this.#carried.set(id, await this.#carry(photo));
    this.bench.measure(id, true);
    await this.#until(() => !isUnderWay(this.bench.photo(id)));
    await this.#judge(id);
  }

  /** Resolves when the bench has come to a state. */
  #until(isSo: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      const stop = this.bench.state.subscribe(() => {
        if (!isSo()) return;
        // A signal's listener is called at once, before it can be ended.
        queueMicrotask(() => stop());
        resolve();
      });
    });
  }

  /** Photos that serve to read others with, and dark ones, are no trials. */
  #isTrial({ id }: PhotoOnBench): boolean {
    if (this.darkPhotos.value.includes(id)) return false;
    return !this.bench.state.value.photos.some(({ settings: { helpers } }) =>
      Object.values(helpers).some((helper: PhotoId | null) => helper === id),
    );
  }

  #isReference({ id, settings }: PhotoOnBench): boolean {
    const { photos } = this.bench.state.value;
    return settings.light === 'filament' || photos.some(({ settings: other }) => other.reference === id);
  }

  /** Photos to carry an outline over from, one a window: the last one first, those whose own was not carried, last. */
  #sourcesFor(id: PhotoId): MeasuredPhotoOnBench[] {
    const { photos, selected } = this.bench.state.value;
    const rankOf = (photo: MeasuredPhotoOnBench): number => {
      if (photo.id === this.#last) return 0;
      const carried = this.#carried.get(photo.id);
      if (carried?.source && carried.outline?.by === null) return 4;
      return this.#isReference(photo) ? 3 : photo.id === selected ? 1 : 2;
    };
    const sources = photos.filter(hasReading).filter((photo) => photo.id !== id && this.#isTrial(photo));
    return sources
      .sort((a, b) => rankOf(a) - rankOf(b))
      .filter((one, i, all) => !all.slice(0, i).some((before) => showSameWindow(before.reading, one.reading)))
      .slice(0, mostWindows);
  }

  /** Gives a photo the settings of the last one of its window, with the outline where it lies in this one. */
  async #carry(photo: PhotoOnBench): Promise<Carried> {
    let missed: Carried = { source: null, outline: null };
    for (const source of this.#sourcesFor(photo.id)) {
      const from = askedOf(source);
      let outline: CarriedOutline;
      try {
        outline = await this.bench.link.call('carryOutline', { from, to: photo.id });
      } catch (error) {
        // Measuring the photo tells what is wrong with it.
        if (!(error instanceof CallFailed)) throw error;
        return missed;
      }
      if (outline.by !== null) {
        this.bench.settle(photo.id, this.#settingsLike(source, { ...from.window, cornersPx: outline.cornersPx }));
        return { source, outline };
      }
      missed = missed.source ? missed : { source, outline };
    }
    return missed;
  }

  #settingsLike(source: MeasuredPhotoOnBench, window: ReadingSettings['window']): ReadingSettings {
    const settings = { ...source.settings, window, sizeFrom: sizeSource(source) };
    // After the filament lamps comes a light that nobody has named yet.
    return this.#isReference(source) ? { ...settings, light: 'unknown', reference: source.id } : settings;
  }

  async #judge(id: PhotoId): Promise<void> {
    const photo = this.bench.photo(id);
    if (!photo) return;
    this.#judged = photo.reading;
    this.verdict.value = await this.#verdictOf(photo);
  }

  /** The outline may have been put right, or the light named. */
  #judgeAgain(): void {
    const told = this.verdict.value;
    const photo = told && this.bench.photo(told.photo);
    if (!photo || told.kind === 'working' || !isMeasured(photo) || photo.reading === this.#judged) return;
    this.#judged = photo.reading;
    void this.#judge(photo.id);
  }

  async #verdictOf(photo: PhotoOnBench): Promise<WatchVerdict> {
    const { id, name, status } = photo;
    const told = { photo: id, name };
    if (status.kind === 'failed') return { ...told, kind: 'failed', error: status.error };
    if (!isMeasured(photo)) return { ...told, kind: 'working' };
    const { source, outline } = this.#carried.get(id) ?? { source: null, outline: null };
    if (source && outline?.isDark && areExposedAlike(source.reading, photo.reading)) {
      this.darkPhotos.value = [...this.darkPhotos.value.filter((other) => other !== id), id];
      return { ...told, kind: 'dark' };
    }
    // Once its corners are set by hand, it does not matter where they came from.
    const isSet = photo.settings.window.cornersPx !== null;
    if (source && outline?.by === null && !isSet) {
      return { ...told, kind: 'not-carried', from: source.name, reason: outline.reason };
    }
    this.#last = id;
    // Those that are measured again, with a reference or a lamp-off photo that was just named, are waited for.
    await this.#until(() => !this.bench.state.value.photos.some((other) => hasReading(other) && isUnderWay(other)));
    const now = this.bench.photo(id);
    if (!now || !isMeasured(now)) return { ...told, kind: 'working' };
    const refusal = refusalOf(now.reading);
    if (refusal) return { ...told, kind: 'refused', ...refusal };
    return this.#comparedWithBest(now);
  }

  async #comparedWithBest(photo: MeasuredPhotoOnBench): Promise<WatchVerdict> {
    const { id, name, reading, settings } = photo;
    const { photos } = this.bench.state.value;
    const earlier = photos.slice(photos.findIndex((other) => other.id === id) + 1).filter(isMeasured);
    const best = bestOf(
      earlier.filter(
        (other) => this.#isTrial(other) && !this.#isReference(other) && showSameWindow(other.reading, reading),
      ),
    );
    if (!best) return { photo: id, name, kind: 'first' };
    const named = this.bench.photo(settings.reference);
    const reference = named && isMeasured(named) ? named.id : null;
    const pair = (await this.bench.compare([best.id, id], reference, id))?.pairs.at(0);
    return pair ? comparedVerdict(photo, best, pair) : { photo: id, name, kind: 'first' };
  }

  /**
   * Looks at a drop of photos when all are measured: puts them in order of time and exposure, and proposes dark ones as lamp-off
   * photos.
   */
  async sortOut(ids: readonly PhotoId[]): Promise<void> {
    await this.#until(() => !ids.some((id) => isUnderWay(this.bench.photo(id))));
    this.bench.arrange(ids);
    for (const id of ids) {
      const photo = this.bench.photo(id);
      if (photo && (await this.#isDark(photo))) this.darkPhotos.value = [...this.darkPhotos.value, id];
    }
  }

  /** Whether a photo has hardly any of the light of a photo of the same window and exposure. */
  async #isDark(photo: PhotoOnBench): Promise<boolean> {
    const { id } = photo;
    if (isMeasured(photo)) {
      const lit = this.#litBeside(photo);
      if (lit) this.#carried.set(id, { source: lit, outline: null });
      return lit !== null;
    }
    // Too dark for its window to be found: it is looked for by that of another photo.
    if (photo.status.kind !== 'failed' || photo.status.error.kind !== 'outline') return false;
    const carried = await this.#carry(photo);
    if (!carried.outline || carried.outline.by === null) return false;
    this.#carried.set(id, carried);
    this.bench.measure(id, false);
    await this.#until(() => !isUnderWay(this.bench.photo(id)));
    const now = this.bench.photo(id);
    return carried.outline.isDark && carried.source !== null && now !== null && isMeasured(now)
      ? areExposedAlike(carried.source.reading, now.reading)
      : false;
  }

  /** A photo of the same window and exposure that is so bright beside this one that this one's lamp may be off. */
  #litBeside({ id, reading }: MeasuredPhotoOnBench): MeasuredPhotoOnBench | null {
    const level = reading.luminance.glowMean.value;
    if (level === null) return null;
    const brighter = this.bench.state.value.photos
      .filter(isMeasured)
      .filter((other) => other.id !== id && this.#isTrial(other) && !this.#isReference(other))
      .filter((other) => showSameWindow(other.reading, reading) && areExposedAlike(other.reading, reading));
    return brighter.find((other) => level < darkBelow * (other.reading.luminance.glowMean.value ?? 0)) ?? null;
  }

  /** The next dark photo that the user has not spoken of, here or by naming it for another photo; null: none. */
  nextDark(): PhotoId | null {
    const helpers = this.bench.state.value.photos.flatMap(
      ({ settings }) => Object.values(settings.helpers) as unknown[],
    );
    return this.darkPhotos.value.find((id) => this.bench.photo(id) !== null && !helpers.includes(id)) ?? null;
  }

  /** The photos that a dark one would be the lamp-off photo of: of its window, exposed alike. */
  lampOffFor(dark: PhotoId): readonly MeasuredPhotoOnBench[] {
    const photo = this.bench.photo(dark);
    const source = this.#carried.get(dark)?.source;
    if (!photo || !source) return [];
    return this.bench.state.value.photos
      .filter(isMeasured)
      .filter((other) => other.id !== dark && this.#isTrial(other))
      .filter(({ reading }) => showSameWindow(reading, source.reading) && areExposedAlike(reading, source.reading));
  }

  /** The dark photo is the lamp-off photo of those like it; can be undone. */
  takeAsLampOff(dark: PhotoId): void {
    const photo = this.bench.photo(dark);
    const lit = this.lampOffFor(dark);
    this.darkPhotos.value = this.darkPhotos.value.filter((id) => id !== dark);
    if (!photo || lit.length === 0) return;
    this.bench.changeAll(
      lit.map(({ id }) => id),
      `lamp-off photo: ${photo.name}`,
      (now) => ({ ...now, helpers: { ...now.helpers, lampOff: dark } }),
    );
    if (this.verdict.value?.photo === dark) this.verdict.value = null;
    const count = lit.length === 1 ? lit[0].name : `${lit.length} photos`;
    this.bench.say(`${photo.name} is the lamp-off photo of ${count}`);
  }

  /** The photo shows the filament lamp: what shows its window is read against it from now on. Can be undone. */
  takeAsReference(id: PhotoId): void {
    const photo = this.bench.photo(id);
    if (!photo || !isMeasured(photo)) return;
    const others = this.bench.state.value.photos
      .filter(isMeasured)
      .filter((other) => other.id !== id && this.#isTrial(other) && showSameWindow(other.reading, photo.reading));
    const what = `${photo.name} is the filament reference`;
    this.bench.changeAll([id, ...others.map((other) => other.id)], what, (now, which) =>
      which === id ? { ...now, light: 'filament', reference: null } : { ...now, reference: id },
    );
    this.bench.say(what);
  }

  /** The dark photo is a trial like any other. */
  async takeAsTrial(dark: PhotoId): Promise<void> {
    this.darkPhotos.value = this.darkPhotos.value.filter((id) => id !== dark);
    this.#carried.delete(dark);
    if (this.shown.value) await this.#judge(dark);
  }
}
