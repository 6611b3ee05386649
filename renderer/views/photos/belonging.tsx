import type { JSX } from 'preact';
import type { HelpersAsked, PhotoId } from '../../../core/contract/bench';
import type { PhotoOnBench, ReadingSettings } from '../../state/bench-state';
import { litByFilament } from '../../state/settings';
import { useBench } from '../bench-context';

interface Place {
  readonly label: string;
  readonly isReference?: boolean;
  /** What it is good for, in a line. */
  readonly hint: string;
  readonly of: (settings: ReadingSettings) => PhotoId | null;
  readonly with: (settings: ReadingSettings, photo: PhotoId | null) => ReadingSettings;
}

const helperPlace = (name: keyof HelpersAsked, label: string, hint: string): Place => ({
  label,
  hint,
  of: ({ helpers }) => helpers[name],
  with: (settings, photo) => ({ ...settings, helpers: { ...settings.helpers, [name]: photo } }),
});

/** Photos that another one is read with, the most useful first. */
const places: readonly Place[] = [
  {
    label: 'Filament reference',
    isReference: true,
    hint: 'the window by its old lamps: what red print and colour are judged against',
    of: ({ reference }) => reference,
    with: (settings, reference) => ({ ...settings, reference }),
  },
  helperPlace('lampOff', 'Lamp-off photo', 'same view and settings, lamps off: room light is taken away'),
  helperPlace('printPhoto', 'Print photo', 'lit by the room, only to find the print'),
  helperPlace('flatField', 'Flat field', 'an evenly lit sheet, same lens: corner loss is taken away'),
];

const copied = (from: ReadingSettings, to: ReadingSettings): ReadingSettings =>
  places.reduce((settings, place) => place.with(settings, place.of(from)), to);

/** The other photos that this one is read with, and the same for all that show the same window. */
export function Belonging({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  const { photos } = bench.state.value;
  const others = photos.filter(({ id }) => id !== photo.id);
  const { settings } = photo;
  const named = places.map((place) => place.of(settings)).filter((id) => id !== null);
  const isReference = photos.some(({ settings: other }) => other.reference === photo.id);
  const nameOf = (id: PhotoId): string => photos.find((other) => other.id === id)?.name ?? '';
  // What serves another photo is not itself read with that.
  const trials = others.filter(({ id }) => !named.includes(id));
  return (
    <section class="leading" aria-label="Photos it is read with">
      <h3>Read with</h3>
      {others.length === 0 && <p class="hint">Drop a second photo to name it here.</p>}
      {places.map((place) => (
        <label key={place.label} class="field">
          {place.label}
          <select
            value={place.of(settings) ?? ''}
            disabled={others.length === 0}
            onChange={(event) => {
              const id = event.currentTarget.value || null;
              const what = `${place.label.toLowerCase()}: ${id === null ? 'none' : nameOf(id)}`;
              // What stands for the filament lamp is lit by it, unless the user has said otherwise.
              const lit = place.isReference && id !== null ? [id] : [];
              bench.changeAll([photo.id, ...lit], what, (now, which) =>
                which === photo.id ? place.with(now, id) : litByFilament(now),
              );
            }}
          >
            <option value="">none</option>
            {others.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
          <span class="hint">{place.hint}</span>
        </label>
      ))}
      {named.length > 0 && trials.length > 0 && (
        <button
          onClick={() =>
            bench.changeAll(
              trials.map(({ id }) => id),
              'photos to read with, for all',
              (now) => copied(settings, now),
            )
          }
        >
          The same for the other {trials.length === 1 ? 'photo' : `${trials.length} photos`}
        </button>
      )}
      {isReference && <p class="hint">Others are read against this photo.</p>}
    </section>
  );
}
