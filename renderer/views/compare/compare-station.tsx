import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { PhotoId } from '../../../core/contract/bench';
import type { Pair } from '../../../core/contract/comparison';
import type { Reading } from '../../../core/contract/readings';
import type { MeasuredPhotoOnBench, PhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { PlusMinus } from '../figure-view';
import { StepNote } from '../step-note';
import { ColourView } from './colour-view';
import { LampsView } from './lamps-view';
import { PairMaps } from './pair-maps';
import { ProfilesView } from './profiles-view';
import { standingLine, standings, type Standing } from '../../state/pair-words';
import { Rankings } from './ranking';
import { SweepView } from './sweep-view';
import { useComparison, type Compared } from './use-comparison';
import { WindowsView } from './windows-view';

/** A photo against the reference has its own figures for that. */
function againstReference({ evenness, redPrint, colour, luminance }: Reading): Standing[] {
  return [
    { label: 'Evenness', difference: evenness.toReference, scale: 1, unit: 'points', word: evenness.words },
    { label: 'Red print', difference: redPrint.index, scale: 1, unit: '% of filament', word: redPrint.words },
    {
      label: 'Colour distance',
      difference: colour.toReferenceUv,
      scale: 1000,
      unit: '10⁻³ u′v′',
      word: colour.verdict,
    },
    { label: 'Luminance', difference: luminance.ofReference, scale: 100, unit: '% of filament', word: '' },
  ];
}

function StandingTable({ lines }: { readonly lines: readonly Standing[] }): JSX.Element {
  return (
    <dl class="standing">
      {lines.map(({ label, difference, scale, unit, word }) => (
        <>
          <dt>
            {label} <small>{unit}</small>
          </dt>
          <dd>
            <PlusMinus figure={difference} scale={scale} />
          </dd>
          <dd class="word">{word}</dd>
        </>
      ))}
    </dl>
  );
}

const isOf = ({ a, b }: Pair, one: PhotoId, other: PhotoId): boolean =>
  (a === one && b === other) || (a === other && b === one);

interface PairViewProps extends Compared {
  readonly photo: MeasuredPhotoOnBench;
  readonly other: MeasuredPhotoOnBench;
}

function PairView({ photo, other, reference, comparison }: PairViewProps): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const [one, second] = [bench.mapsOf(photo.id), bench.mapsOf(other.id)];
  const isMissing = second === undefined;
  useEffect(() => {
    if (isMissing) bench.measure(other.id, true);
  }, [other.id, isMissing]);
  const pair = comparison?.pairs.find((found) => isOf(found, photo.id, other.id));
  const lines =
    other.id === reference
      ? againstReference(photo.reading)
      : pair
        ? standings(pair, photo.id, (id) => (id === photo.id ? photo.name : other.name))
        : null;
  return (
    <>
      {lines && <h2>{other.id === reference ? `Against ${other.name}` : standingLine(lines, other.name)}</h2>}
      {lines && <StandingTable lines={lines} />}
      <StepNote words={lines?.map(({ word }) => word).join(' ') ?? ''} />
      {one && second ? (
        <PairMaps first={{ name: photo.name, entry: one }} second={{ name: other.name, entry: second }} />
      ) : (
        <div class="no-map waiting tall" role="status">
          <span>The maps are being made.</span>
        </div>
      )}
    </>
  );
}

/** What is still missing for a comparison, in one sentence. */
function whyNothing({ photos, leftOut }: Compared, photo: PhotoOnBench): string {
  if (photo.reading === null) return 'This photo has no reading yet.';
  if (photos.length < 2 && leftOut > 0) return 'The other photos show a window of another size or shape.';
  return 'Drop a second photo of this window: one photo has nothing to be compared with.';
}

const views = {
  pair: 'Side by side',
  profiles: 'Profiles',
  colour: 'Chromaticity',
  sweep: 'Sweep',
  windows: 'Two windows',
  lamps: 'Lamps alone',
} as const;
type View = keyof typeof views;

/** Which way of comparing is shown; all of them speak of the same photos. */
function ViewChoice({ view, onChange }: { readonly view: View; readonly onChange: (view: View) => void }): JSX.Element {
  return (
    <div class="choice" role="group" aria-label="Ways to compare">
      {(Object.keys(views) as View[]).map((name) => (
        <button key={name} aria-pressed={name === view} onClick={() => onChange(name)} data-view={name}>
          {views[name]}
        </button>
      ))}
    </div>
  );
}

/** What the chosen view shows. */
function CompareView({ view, compared, photo, other }: CompareViewProps): JSX.Element {
  const { photos, reference, comparison } = compared;
  const given = { photo, other: other ?? null, reference, photos };
  if (view === 'colour') return <ColourView {...given} />;
  if (view === 'profiles') return <ProfilesView {...given} />;
  if (view === 'windows') return <WindowsView key={photo.id} {...given} />;
  if (view === 'lamps') return <LampsView {...given} />;
  if (view === 'sweep') return <SweepView {...given} groups={comparison?.ranking.evenness ?? null} />;
  if (other) return <PairView {...compared} photo={photo} other={other} />;
  return (
    <div class="no-map tall" role="status">
      <span>{whyNothing(compared, photo)}</span>
    </div>
  );
}

interface CompareViewProps {
  readonly view: View;
  readonly compared: Compared;
  readonly photo: MeasuredPhotoOnBench;
  readonly other: MeasuredPhotoOnBench | undefined;
}

/** Station 4: the photos of one window compared, two at a time or all together, and all of them in order. */
export function CompareStation({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  const compared = useComparison(bench, photo);
  const { photos, reference, comparison, leftOut } = compared;
  const [chosen, setChosen] = useState<PhotoId | null>(null);
  const [view, setView] = useState<View>('pair');
  const isOfTwo = view === 'pair' || view === 'profiles' || view === 'colour';
  const current = photos.find(({ id }) => id === photo.id);
  const others = photos.filter(({ id }) => id !== photo.id);
  // The try before this one, unless another was chosen.
  const before = photos.slice(photos.findIndex(({ id }) => id === photo.id) + 1).at(0);
  const other = others.find(({ id }) => id === chosen) ?? before ?? others.at(0);
  return (
    <>
      <main class="well">
        <h1 class="hidden-text">{photo.name} beside another photo</h1>
        {current && <ViewChoice view={view} onChange={setView} />}
        {current && other && isOfTwo && (
          <label class="field against">
            {photo.name} against
            <select value={other.id} onChange={(event) => setChosen(event.currentTarget.value)} data-against>
              {others.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                  {id === reference ? ' (filament reference)' : ''}
                </option>
              ))}
            </select>
          </label>
        )}
        {current ? (
          <CompareView view={view} compared={compared} photo={current} other={other} />
        ) : (
          <div class="no-map tall" role="status">
            <span>{whyNothing(compared, photo)}</span>
          </div>
        )}
      </main>
      <aside class="side" aria-label="All photos of this window, in order">
        <h2>{photos.length > 1 ? `${photos.length} photos of this window` : 'Nothing to put in order yet'}</h2>
        {reference === null && photos.length > 1 && (
          <p class="hint">
            Name the filament photo on station <kbd>1</kbd>: then red print and colour are judged against it.
          </p>
        )}
        {comparison && <Rankings comparison={comparison} photos={photos} inView={photo.id} />}
        {leftOut > 0 && photos.length > 0 && (
          <p class="hint">
            {leftOut === 1 ? 'One photo shows' : `${leftOut} photos show`} another window and{' '}
            {leftOut === 1 ? 'is' : 'are'} left out.
          </p>
        )}
      </aside>
    </>
  );
}
