import path from 'node:path';
import { namedItem } from '../../book/edits';
import { helperPhotoFor, originalPath, statedOf } from '../../book/unit-series';
import { windowAsked } from '../../book/window-asked';
import type { BenchPhoto, HelpersAsked, MeasureAsked, PhotoAsked } from '../../contract/bench';
import type { LaidPhoto } from '../../contract/book-verbs';
import type { PhotoRole, UnitPhoto, UnitRecord, UnitWindow } from '../../contract/unit-record';
import type { Book } from '../book/book';
import type { PhotoRegistry } from './photo-registry';

const noHelpers: HelpersAsked = { lampOff: null, flatField: null, printPhoto: null };

/** Without corners a photo is one of all windows. */
export const showsWindow = ({ corners }: UnitPhoto, window: string): boolean =>
  corners === undefined || window in corners;

/** The reference of a window: of several the last added. */
export function referenceOf(record: UnitRecord, window: string): UnitPhoto | undefined {
  return record.photos.filter((photo) => photo.role === 'reference' && showsWindow(photo, window)).at(-1);
}

function trialPhotosOf(record: UnitRecord, window: string): UnitPhoto[] {
  return record.trials
    .filter(({ windows }) => windows === undefined || windows.includes(window))
    .flatMap(({ name }) => record.photos.filter((photo) => photo.role === 'trial' && photo.trial === name))
    .filter((photo) => showsWindow(photo, window));
}

function lightOf(record: UnitRecord, { role, trial, light }: UnitPhoto): PhotoAsked['light'] {
  if (light !== undefined) return light;
  if (role === 'reference') return 'filament';
  return record.trials.find(({ name }) => name === trial)?.light ?? 'unknown';
}

/** Lays the photos of one window, as they are needed, each once. */
class Laying {
  private readonly laid = new Map<string, BenchPhoto>();

  constructor(
    private readonly book: Book,
    private readonly photos: PhotoRegistry,
    private readonly record: UnitRecord,
    private readonly window: UnitWindow,
  ) {}

  async lay(photo: UnitPhoto): Promise<BenchPhoto> {
    const known = this.laid.get(photo.sha256);
    if (known) return known;
    const place = path.join(this.book.unitFolder(this.record.id), originalPath(photo));
    const stated = statedOf(photo);
    const facts = { name: photo.name, isSample: false, stated };
    const laid = this.photos.at(place, stated) ?? (await this.photos.add(place, facts));
    this.laid.set(photo.sha256, laid);
    return laid;
  }

  private async helper(role: PhotoRole, trial: string | undefined): Promise<string | null> {
    const photo = helperPhotoFor(this.record, role, trial ?? null);
    return photo ? (await this.lay(photo)).id : null;
  }

  private async photoAsked(photo: UnitPhoto): Promise<PhotoAsked> {
    const { trial, corners } = photo;
    return {
      photo: (await this.lay(photo)).id,
      window: windowAsked(this.window, corners?.[this.window.name] ?? null),
      light: lightOf(this.record, photo),
      helpers: {
        lampOff: await this.helper('lamp-off', trial),
        flatField: await this.helper('flat-field', trial),
        printPhoto: await this.helper('print-photo', trial),
      },
    };
  }

  private scene(): Pick<MeasureAsked, 'room' | 'viewingDistanceMm'> {
    const { room, viewingDistanceMm } = this.record.photography ?? {};
    return { room: room ?? 'unknown', viewingDistanceMm: viewingDistanceMm ?? 500 };
  }

  private async entry(photo: UnitPhoto, asked: PhotoAsked, reference: PhotoAsked | null): Promise<LaidPhoto> {
    const { role, trial } = photo;
    return {
      photo: await this.lay(photo),
      window: this.window.name,
      role,
      trial: trial ?? null,
      asked: { ...asked, ...this.scene(), reference },
    };
  }

  async all(): Promise<LaidPhoto[]> {
    const { record, window } = this;
    const reference = referenceOf(record, window.name);
    const referenceAsked = reference ? await this.photoAsked(reference) : null;
    const entries = reference && referenceAsked ? [await this.entry(reference, referenceAsked, null)] : [];
    for (const photo of trialPhotosOf(record, window.name))
      entries.push(await this.entry(photo, await this.photoAsked(photo), referenceAsked));
    // The helper photos that these are read with; they are read for no window by themselves.
    const used = new Set(entries.flatMap(({ asked }) => Object.values(asked.helpers) as (string | null)[]));
    for (const photo of record.photos) {
      const laid = this.laid.get(photo.sha256);
      if (!laid || !used.has(laid.id) || ['reference', 'trial', 'other'].includes(photo.role)) continue;
      const asked = {
        photo: laid.id,
        window: windowAsked(window, null),
        light: 'unknown',
        helpers: noHelpers,
      } as const;
      entries.push(await this.entry(photo, asked, null));
    }
    return entries;
  }
}

/**
 * Lays the photos of one window of a unit on the bench: the reference first, the trials in their order, then the photos
 * that these are read with. A photo that lies there already is not laid twice.
 *
 * @throws AppError WINDOW_UNKNOWN; of kind photo, for an original that is not there
 * @rule BE18
 */
export function layUnit(
  { book, photos }: { readonly book: Book; readonly photos: PhotoRegistry },
  record: UnitRecord,
  window: string,
): Promise<LaidPhoto[]> {
  return new Laying(book, photos, record, namedItem('window', window, record.windows)).all();
}
