import { effect, signal } from '@preact/signals';
import type {
  BenchError,
  BenchPhoto,
  MeasureAsked,
  PhotoId,
  SavedFile,
  ShadePageAsked,
} from '../../core/contract/bench';
import type { AddedArchive, LaidPhoto } from '../../core/contract/book-verbs';
import type { Comparison, Match } from '../../core/contract/comparison';
import { withoutKey } from '../../core/base/without-key';
import type { Reading } from '../../core/contract/readings';
import type { MappedWindow } from '../../core/contract/measure';
import { CallFailed, isArchive, isRefused, type BenchLink } from '../link/bench-link';
import {
  emptyBench,
  photoOf,
  withPhoto,
  type BenchState,
  type PhotoOnBench,
  type ReadingSettings,
  type Station,
} from './bench-state';
import type { KeptSettings } from './kept-settings';
import { emptyHistory, redone, undone, withEdit, type Edit } from './history';
import { LatestKept } from './latest-kept';
import { arranged } from './photo-groups';
import { PhotoPictures } from './photo-pictures';
import { isOfOtherShape, settingsOfNewPhoto, settingsOfOtherWindow, withoutPhoto } from './settings';
import { thumbnailOf } from './thumbnail';
import { Watch } from './watch';
import { WorkQueue } from './work-queue';

/** Maps of so many photos are kept; an older one is measured again when it is looked at. */
const mostMaps = 12;
/** From so many on the photos of a drop are put in order of time and exposure. */
const fewestArranged = 3;
/** One photo is decoded while another is measured. */
const measuredAtOnce = 2;

/** Everything the screens show, and everything that can be done on them. */
export class Bench {
  readonly state = signal<BenchState>(emptyBench);
  readonly history = signal(emptyHistory);
  /** Raised whenever maps or thumbnails arrive, so that the screens look again. */
  readonly pictures = signal(0);
  readonly photoPictures: PhotoPictures;
  readonly watch: Watch;
  readonly #maps = new LatestKept<PhotoId, MappedWindow>(mostMaps);
  readonly #thumbnails = new Map<PhotoId, ImageData>();
  readonly #queue = new WorkQueue(measuredAtOnce);
  readonly #running = new Map<PhotoId, AbortController>();
  /** Photos that took over a size and were not measured with it yet. */
  readonly #withSizeOfOther = new Set<PhotoId>();

  constructor(
    readonly link: BenchLink,
    readonly kept: KeptSettings,
  ) {
    this.photoPictures = new PhotoPictures(link);
    this.watch = new Watch(this);
    link.onEvent((event) => {
      if (event.type === 'engine-stopped') this.#change(() => ({ engineStopped: event.message }));
    });
  }

  /**
   * Greets the host; photos that already lie on the bench come back after a page was loaded again.
   *
   * @returns units that the program was opened with, for the book
   */
  async start(): Promise<readonly AddedArchive[]> {
    try {
      const { version, shell, samples, photos, archives } = await this.link.call('hello', {});
      this.#change(() => ({ isReady: true, version, shell, samples }));
      const arriving = await this.watch.arriving(this.kept);
      this.#lay(this.kept.inOrder(photos.filter(({ id }) => !arriving.has(id))));
      await this.watch.start();
      return archives;
    } catch (startError) {
      if (!(startError instanceof CallFailed)) throw startError;
      this.#change(() => ({ startError }));
      return [];
    }
  }

  /** Does something that the host may refuse; a refusal is told in the foot line. @returns null when it was refused */
  async #attempt<Answer>(work: Promise<Answer>): Promise<Answer | null> {
    try {
      return await work;
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      this.say(`${error.message} ${error.remedy}`);
      return null;
    }
  }

  /** @param like  settings that the new photos begin with; left out: those of the photo in view */
  async addFiles(files: readonly File[], like: ReadingSettings | null = null): Promise<void> {
    if (files.length === 0) return;
    this.say(files.length === 1 ? `Taking ${files[0].name}` : `Taking ${files.length} photos`);
    const answers = await this.link.addPhotos(files);
    const refused = answers.filter(isRefused);
    this.#change((state) => ({ refusedFiles: [...refused, ...state.refusedFiles] }));
    const photos = answers.filter((answer): answer is BenchPhoto => !isRefused(answer) && !isArchive(answer));
    this.#lay(photos, like);
    if (photos.length >= fewestArranged) void this.watch.sortOut(photos.map(({ id }) => id));
  }

  /** Puts photos of a unit onto the bench as its record says that they are read; those that lie there stay as they are. */
  layOut(laid: readonly LaidPhoto[]): void {
    const isThere = new Set(this.state.value.photos.map(({ id }) => id));
    const photos = laid
      .filter(({ photo }) => !isThere.has(photo.id))
      .map(({ photo, asked }): PhotoOnBench => {
        const { window, light, room, viewingDistanceMm, helpers, reference } = asked;
        const named = { reference: reference?.photo ?? null, sizeFrom: null };
        const settings = { window, light, room, viewingDistanceMm, helpers, ...named };
        return { ...photo, settings, status: { kind: 'waiting' }, reading: null };
      });
    const first = laid.filter(({ role }) => role === 'trial').at(-1) ?? laid.at(0);
    if (!first) return;
    this.#change((state) => ({
      photos: [...[...photos].reverse(), ...state.photos],
      selected: first.photo.id,
      station: 'reading',
    }));
    for (const { id } of photos) this.measure(id, id === first.photo.id);
  }

  /** Settles when none of these photos waits or is being measured. */
  settled(ids: readonly PhotoId[]): Promise<void> {
    return new Promise((resolve) => {
      const stop = effect(() => {
        const isOpen = this.state.value.photos.some(
          ({ id, status }) => ids.includes(id) && (status.kind === 'waiting' || status.kind === 'measuring'),
        );
        if (isOpen) return;
        resolve();
        // Not from within its own first run.
        queueMicrotask(() => stop());
      });
    });
  }

  async addSamples(names: readonly string[]): Promise<void> {
    this.#lay((await this.#attempt(this.link.call('addSamples', { names }))) ?? []);
  }

  dismissRefused(name: string): void {
    this.#change((state) => ({ refusedFiles: state.refusedFiles.filter((file) => file.name !== name) }));
  }

  /** Puts photos on top of the stack, the first of them in view, and has them measured. */
  #lay(photos: readonly BenchPhoto[], like: ReadingSettings | null = null): void {
    if (photos.length === 0) return;
    const laid = photos.map((photo) => this.#newOnBench(photo, like));
    this.#change((state) => ({ photos: [...laid, ...state.photos], selected: laid[0].id, station: 'reading' }));
    for (const { id } of laid) this.measure(id, false);
  }

  #newOnBench(photo: BenchPhoto, like: ReadingSettings | null = null): PhotoOnBench {
    const sample = this.state.value.samples.find(({ name }) => photo.isSample && name === photo.name) ?? null;
    const told = this.kept.of(photo.id) ?? like;
    const settings = told ?? settingsOfNewPhoto(this.state.value, sample);
    if (told === null && sample === null && settings.window.sizeMm !== null) this.#withSizeOfOther.add(photo.id);
    return { ...photo, settings, status: { kind: 'waiting' }, reading: null };
  }

  /** Puts photos on top of the stack, the last of them topmost, to be measured when their turn has come. */
  layArrived(photos: readonly BenchPhoto[]): void {
    const laid = photos.map((photo) => this.#newOnBench(photo)).reverse();
    this.#change((state) => ({ photos: [...laid, ...state.photos] }));
  }

  /** Puts photos of one drop in order of time and exposure, at the place of the first of them. */
  arrange(ids: readonly PhotoId[]): void {
    this.#change(({ photos }) => {
      const at = photos.findIndex(({ id }) => ids.includes(id));
      const others = photos.filter(({ id }) => !ids.includes(id));
      const before = photos.slice(0, at).filter(({ id }) => !ids.includes(id)).length;
      const own = arranged(photos.filter(({ id }) => ids.includes(id)));
      return { photos: [...others.slice(0, before), ...own, ...others.slice(before)] };
    });
  }

  /** Shows a photo that has arrived, unless the user is at work on another one. */
  follow(id: PhotoId): void {
    const { station, selected } = this.state.value;
    if (selected === null) this.#change(() => ({ selected: id, station: 'reading' }));
    else if (station === 'reading' || station === 'compare') this.#change(() => ({ selected: id }));
  }

  /** Settings that nobody has chosen: there is nothing to be taken back. */
  settle(id: PhotoId, settings: ReadingSettings): void {
    this.#change((state) => withPhoto(state, id, () => ({ settings })));
  }

  select(id: PhotoId): void {
    this.#change(() => ({ selected: id }));
    const photo = this.photo(id);
    if (photo?.status.kind === 'measured' && !this.mapsOf(id)) this.measure(id, true);
  }

  goTo(station: Station): void {
    this.#change(() => ({ station }));
  }

  photo(id: PhotoId | null): PhotoOnBench | null {
    return photoOf(this.state.value, id);
  }

  mapsOf(id: PhotoId): MappedWindow | undefined {
    return this.#maps.get(id);
  }

  thumbnailOf(id: PhotoId): ImageData | undefined {
    return this.#thumbnails.get(id);
  }

  /** Changes how a photo is read and measures it again; can be undone. `what` completes "Undo: ...". */
  changeSettings(id: PhotoId, what: string, change: (settings: ReadingSettings) => ReadingSettings): void {
    this.changeAll([id], what, change);
  }

  /** A change to several photos, undone as one. */
  changeAll(
    ids: readonly PhotoId[],
    what: string,
    change: (settings: ReadingSettings, photo: PhotoId) => ReadingSettings,
  ): void {
    const photos = ids.map((id) => this.photo(id)).filter((photo) => photo !== null);
    if (photos.length === 0) return;
    const changes = photos.map(({ id, settings }) => ({ photo: id, before: settings, after: change(settings, id) }));
    this.history.value = withEdit(this.history.value, { what, changes });
    for (const { photo, after } of changes) this.#use(photo, after);
  }

  undo(): void {
    const step = undone(this.history.value);
    if (step) this.#take(step.edit, 'before', step.history, `Undone: ${step.edit.what}`);
  }

  redo(): void {
    const step = redone(this.history.value);
    if (step) this.#take(step.edit, 'after', step.history, `Done again: ${step.edit.what}`);
  }

  #take({ changes }: Edit, side: 'before' | 'after', history: typeof emptyHistory, said: string): void {
    this.history.value = history;
    const left = changes.filter(({ photo }) => this.photo(photo));
    if (left.length === 0) return;
    this.#change(() => ({ selected: left[0].photo }));
    for (const change of left) this.#use(change.photo, this.#withPhotosOnBench(change[side]));
    this.say(said);
  }

  /** Photos that an earlier setting named may have been taken off the bench. */
  #withPhotosOnBench(settings: ReadingSettings): ReadingSettings {
    const named = [settings.reference, ...(Object.values(settings.helpers) as (PhotoId | null)[])];
    return named.reduce((kept, id) => (id !== null && !this.photo(id) ? withoutPhoto(kept, id) : kept), settings);
  }

  #use(id: PhotoId, settings: ReadingSettings): void {
    this.#withSizeOfOther.delete(id);
    this.#change((state) => withPhoto(state, id, () => ({ settings })));
    this.measure(id, true);
    // What is read against this photo is read anew.
    for (const photo of this.state.value.photos) {
      if (photo.id !== id && photo.settings.reference === id) this.measure(photo.id, false);
    }
  }

  /** Measures a photo with its settings, instead of what was under way for it. */
  measure(id: PhotoId, first: boolean): void {
    this.#running.get(id)?.abort();
    this.#change((state) => withPhoto(state, id, () => ({ status: { kind: 'waiting' } })));
    this.#queue.add(id, () => this.#measureNow(id), first);
  }

  async #measureNow(id: PhotoId): Promise<void> {
    const photo = this.photo(id);
    if (!photo) return;
    const stop = new AbortController();
    this.#running.set(id, stop);
    const set = (change: Partial<PhotoOnBench>): void => {
      if (!stop.signal.aborted) this.#change((state) => withPhoto(state, id, () => change));
    };
    set({ status: { kind: 'measuring', step: 'decode' } });
    try {
      const { reading, maps } = await this.link.call('measure', this.askOf(photo), {
        signal: stop.signal,
        onProgress: ({ step }) => set({ status: { kind: 'measuring', step } }),
      });
      if (stop.signal.aborted) return;
      const entry: MappedWindow = { role: 'trial', reading, maps };
      if (this.#isOfOtherWindow(id, reading)) return;
      this.#maps.set(id, entry);
      this.#thumbnails.set(id, thumbnailOf(entry));
      set({ status: { kind: 'measured' }, reading });
      this.pictures.value++;
      this.say(`${photo.name} is measured`);
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      set({ status: { kind: 'failed', error } });
      if (!stop.signal.aborted) this.say(`${photo.name}: ${error.message}`);
    } finally {
      if (this.#running.get(id) === stop) this.#running.delete(id);
    }
  }

  /** Of a photo that took over a size which its window does not have: it is measured again without. @rule SC39 */
  #isOfOtherWindow(id: PhotoId, reading: Reading): boolean {
    const photo = this.photo(id);
    if (!photo || !this.#withSizeOfOther.delete(id) || !isOfOtherShape(reading)) return false;
    this.settle(id, settingsOfOtherWindow(photo.settings));
    this.say(`${photo.name} shows another window: it does not take over the size`);
    this.measure(id, true);
    return true;
  }

  askOf(photo: PhotoOnBench): MeasureAsked {
    const { reference, ...settings } = withoutKey(photo.settings, 'sizeFrom');
    const by = reference === photo.id ? null : this.photo(reference);
    if (!by) return { photo: photo.id, ...settings, reference: null };
    const { window, light, helpers } = by.settings;
    return { photo: photo.id, ...settings, reference: { photo: by.id, window, light, helpers } };
  }

  /** How measured photos compare with the one in view, as their readings stand, and their order; null when that was refused. */
  compare(photos: readonly PhotoId[], reference: PhotoId | null, inView: PhotoId): Promise<Comparison | null> {
    return this.#attempt(this.link.call('compare', { photos, reference, inView }));
  }

  /** How alike the windows of two measured photos are; null when that was refused. */
  match(one: PhotoId, other: PhotoId): Promise<Match | null> {
    return this.#attempt(this.link.call('match', { photos: [one, other] }));
  }

  /** Stops measuring a photo; it stays on the bench. */
  cancel(id: PhotoId): void {
    this.#queue.drop(id);
    this.#running.get(id)?.abort();
    const error: BenchError = {
      kind: 'cancelled',
      code: 'CANCELLED',
      message: 'Measuring was stopped.',
      remedy: 'Measure it again when you are ready.',
    };
    this.#change((state) => withPhoto(state, id, () => ({ status: { kind: 'failed', error } })));
  }

  /** Puts away what the screens say of an engine that ended by itself; it starts again with the next call. */
  dismissStopped(): void {
    this.#change(() => ({ engineStopped: null }));
  }

  /** Measures everything again that was lost when the engine ended by itself. */
  measureLost(): void {
    this.dismissStopped();
    for (const { id, status } of this.state.value.photos) {
      if (status.kind === 'failed' && status.error.kind === 'engine-stopped') this.measure(id, false);
    }
  }

  async remove(id: PhotoId): Promise<void> {
    this.#queue.drop(id);
    this.#running.get(id)?.abort();
    this.#maps.delete(id);
    this.#thumbnails.delete(id);
    this.#change((state) => {
      const at = state.photos.findIndex((photo) => photo.id === id);
      const photos = state.photos.filter((photo) => photo.id !== id);
      const next = photos[Math.min(at, photos.length - 1)]?.id ?? null;
      return { photos, selected: state.selected === id ? next : state.selected };
    });
    for (const photo of this.state.value.photos) {
      const settings = withoutPhoto(photo.settings, id);
      if (settings !== photo.settings) this.#use(photo.id, settings);
    }
    await this.#attempt(this.link.call('removePhotos', { photos: [id] }));
  }

  /** The reading as files, as the command line writes them; none when that was refused. */
  async exportReading(id: PhotoId, what: 'json' | 'csv' | 'pictures'): Promise<readonly SavedFile[]> {
    const photo = this.photo(id);
    if (!photo) return [];
    this.say('The reading is being written');
    const files = await this.#attempt(this.link.call('exportReading', { measure: this.askOf(photo), what }));
    if (files) this.say('The reading is written');
    return files ?? [];
  }

  /** The page of a shade for a photo's window; none when that was refused. */
  async printShade(id: PhotoId, asked: Omit<ShadePageAsked, 'measure'>): Promise<readonly SavedFile[]> {
    const photo = this.photo(id);
    if (!photo) return [];
    this.say('The page of the shade is being made');
    const page = await this.#attempt(this.link.call('printShade', { measure: this.askOf(photo), ...asked }));
    if (page) this.say(page.refusal ? `${page.refusal.message}. ${page.refusal.remedy}` : 'The page is made');
    return page?.files ?? [];
  }

  say(said: string): void {
    this.#change(() => ({ said }));
  }

  /** Tells of what the page had kept and cannot read any more. @param what  as `outlines and settings`; none: nothing is lost */
  tellLost(what: readonly string[]): void {
    if (what.length > 0) this.#change(() => ({ lost: keptDamaged(what) }));
  }

  /** Puts away what the screens say of it. */
  dismissLost(): void {
    this.#change(() => ({ lost: null }));
  }

  #change(change: (state: BenchState) => Partial<BenchState>): void {
    const before = this.state.value;
    this.state.value = { ...before, ...change(before) };
    if (this.state.value.photos !== before.photos) this.kept.keep(this.state.value.photos);
  }
}

const keptDamaged = (what: readonly string[]): BenchError => ({
  kind: 'usage',
  code: 'KEPT_BENCH_DAMAGED',
  message: `What this page had kept of its photos cannot be read any more: ${what.join('; ')}.`,
  remedy: 'The photos and the book are as they were. Set it again where it is missing.',
});
