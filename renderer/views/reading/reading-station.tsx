import type { JSX } from 'preact';
import type { PhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { Glyph } from '../glyph';
import { ShootingGuide } from '../shooting-guide';
import { Maps } from './maps';
import { NinePoints, SpotTable } from './spot-table';
import { Verdict } from './verdict';

const stepWords = {
  waiting: 'Waits for the photos before it.',
  decode: 'The photo is being opened.',
  measure: 'The window is being searched for and measured.',
  done: 'Nearly there.',
} as const;

/** The places of the reading, empty, while it is measured. */
function Working({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  const words = photo.status.kind === 'measuring' ? stepWords[photo.status.step] : stepWords.waiting;
  return (
    <>
      <main class="well">
        <h1>{photo.name}</h1>
        <div class="no-map waiting tall" role="status">
          <span>{words}</span>
        </div>
        <div class="no-map waiting tall" aria-hidden="true" />
      </main>
      <aside class="side verdict" aria-label="Verdict">
        <h2>{words}</h2>
        {['Evenness', 'Red print', 'Colour'].map((name) => (
          <section key={name} class="leading">
            <h3>{name}</h3>
            <div class="slot waiting">
              <span>is being measured</span>
            </div>
          </section>
        ))}
        <div class="last">
          <button onClick={() => bench.cancel(photo.id)}>Stop measuring this photo</button>
          <p class="hint">The photo stays on the bench.</p>
        </div>
      </aside>
    </>
  );
}

/** A photo that could not be measured: the reason, and the one thing to do about it. */
function Failed({ photo }: { readonly photo: PhotoOnBench }): JSX.Element | null {
  const bench = useBench();
  if (photo.status.kind !== 'failed') return null;
  const { error } = photo.status;
  const isOutline = error.kind === 'outline';
  return (
    <>
      <main class="well">
        <h1>{photo.name}</h1>
        <div class="no-map tall">
          <span>No picture: the photo was not measured</span>
        </div>
      </main>
      <aside class="side verdict" aria-label="Verdict">
        <h2>
          <Glyph kind="refuse" /> {error.message}
        </h2>
        <p>{error.remedy}</p>
        <p class="hint">{error.code}</p>
        <div class="row">
          {isOutline && (
            <button class="go" onClick={() => bench.goTo('outline')}>
              Mark the window yourself <kbd>2</kbd>
            </button>
          )}
          {!isOutline && (
            <button class="go" onClick={() => bench.measure(photo.id, true)}>
              Measure it again
            </button>
          )}
          <button onClick={() => void bench.remove(photo.id)}>Take it off the bench</button>
        </div>
        <ShootingGuide />
      </aside>
    </>
  );
}

/** Station 3: the verdict of one photo. */
export function ReadingStation({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const entry = bench.mapsOf(photo.id);
  const { reading, status } = photo;
  if (status.kind === 'failed') return <Failed photo={photo} />;
  if (reading === null) return <Working photo={photo} />;
  return (
    <>
      <main class="well">
        <h1 class="hidden-text">{photo.name}</h1>
        {entry ? (
          <Maps entry={entry}>
            <button
              class="plain"
              title="Takes the photo off the bench; the file stays"
              onClick={() => void bench.remove(photo.id)}
            >
              Remove
            </button>
          </Maps>
        ) : (
          <div class="no-map waiting tall" role="status">
            <span>The maps are being made.</span>
          </div>
        )}
        <div class="tables">
          <SpotTable reading={reading} />
          <NinePoints reading={reading} />
        </div>
      </main>
      <Verdict photo={photo} reading={reading} />
    </>
  );
}
