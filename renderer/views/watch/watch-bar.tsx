import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { shortFigure } from '../../../core/display/figure-text';
import type { PhotoId } from '../../../core/contract/bench';
import type { NotTaken } from '../../../core/contract/watch';
import { useBench } from '../bench-context';
import { Glyph } from '../glyph';
import { watchCounts, watchLine, type WatchMark } from './watch-words';

const shapes: Readonly<Record<WatchMark, string | null>> = {
  up: 'M5 27 20 9 35 27',
  down: 'M5 13 20 31 35 13',
  alike: 'M6 14h28M6 26h28',
  open: 'M20 6v18M20 30v4',
  none: null,
};

/** Better, worse or neither by its shape: there is no colour in it. */
function Mark({ mark }: { readonly mark: WatchMark }): JSX.Element | null {
  const shape = shapes[mark];
  if (shape === null) return null;
  return (
    <svg class="watch-mark" viewBox="0 0 40 40" aria-hidden="true">
      <path d={shape} />
    </svg>
  );
}

function NotTakenList({ notTaken }: { readonly notTaken: readonly NotTaken[] }): JSX.Element | null {
  if (notTaken.length === 0) return null;
  return (
    <details class="not-taken">
      <summary>
        <Glyph kind="refuse" /> {notTaken.length === 1 ? 'One cannot be read' : `${notTaken.length} cannot be read`}
      </summary>
      <ul>
        {notTaken.map(({ name, error }) => (
          <li key={name}>
            <b>{name}</b>: {error.message} {error.remedy}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** A dark photo is taken as lamp-off photo, or as a trial. */
function DarkChoice({ dark }: { readonly dark: PhotoId }): JSX.Element {
  const bench = useBench();
  const count = bench.watch.lampOffFor(dark).length;
  return (
    <>
      <button class="go" onClick={() => bench.watch.takeAsLampOff(dark)} disabled={count === 0}>
        Lamp-off photo of {count === 1 ? 'the other' : `the ${count} others`} <kbd>L</kbd>
      </button>
      <button onClick={() => void bench.watch.takeAsTrial(dark)}>It is a trial</button>
    </>
  );
}

/** What can be done about the photo that arrived last. */
function NextStep(): JSX.Element | null {
  const bench = useBench();
  const verdict = bench.watch.verdict.value;
  if (verdict?.kind === 'dark') return <DarkChoice dark={verdict.photo} />;
  if (verdict?.kind === 'first' && bench.photo(verdict.photo)?.settings.reference === null) {
    return (
      <button class="go" onClick={() => bench.watch.takeAsReference(verdict.photo)}>
        It is the filament lamp <kbd>R</kbd>
      </button>
    );
  }
  if (verdict?.kind === 'not-carried' || (verdict?.kind === 'failed' && verdict.error.kind === 'outline')) {
    const toOutline = (): void => {
      bench.select(verdict.photo);
      bench.goTo('outline');
    };
    return (
      <button class="go" onClick={toOutline}>
        To the outline
      </button>
    );
  }
  return null;
}

/** Dark photos of a drop, one after the other. */
function DarkBar(): JSX.Element | null {
  const bench = useBench();
  const dark = bench.photo(bench.watch.nextDark());
  if (!dark) return null;
  return (
    <section class="watch small" aria-label="A dark photo" data-dark={dark.name}>
      <p class="watch-said" role="status">
        <b>{dark.name}</b> shows hardly any of the light of others of its window, at the same exposure. Were the lamps
        off?
      </p>
      <div class="row">
        <DarkChoice dark={dark.id} />
      </div>
    </section>
  );
}

/** The watched folder: one line to be read from two metres, what it means below it, and what the folder has given. */
export function WatchBar(): JSX.Element | null {
  const bench = useBench();
  const watch = bench.watch.shown.value;
  const [isSmall, setIsSmall] = useState(false);
  if (!watch) return <DarkBar />;
  const verdict = bench.watch.verdict.value;
  const printed = (id: PhotoId | null): string => {
    const reading = bench.photo(id)?.reading;
    return reading ? shortFigure(reading.evenness.score) : '';
  };
  const own = printed(verdict?.photo ?? null);
  const best = printed(verdict && 'best' in verdict ? verdict.best : null);
  const { mark, word, by, second } = watchLine(verdict, watch, { own, best });
  const kind = watch.gone === null ? (verdict?.kind ?? 'ready') : 'gone';
  return (
    <section
      class={`watch ${isSmall || kind === 'ready' ? 'small' : ''}`}
      aria-label="Watched folder"
      data-watch={kind}
    >
      <div class="watch-said" role="status">
        <p class="watch-line">
          <Mark mark={mark} />
          <span class="watch-word">{word}</span>
          {by !== '' && <span class="watch-by">{by}</span>}
        </p>
        <p class="watch-second">{second}</p>
      </div>
      <div class="watch-side">
        <p title={`${watch.before} photos lay there before and are left alone`}>
          <b>{watch.folder}</b> {watchCounts(watch)}
        </p>
        <NotTakenList notTaken={watch.notTaken} />
        <div class="row">
          <NextStep />
          <button class="plain" aria-pressed={isSmall} onClick={() => setIsSmall(!isSmall)}>
            Small line
          </button>
          <button class="plain" onClick={() => void bench.watch.stop()}>
            Stop watching
          </button>
        </div>
      </div>
    </section>
  );
}

/** How to begin watching; nothing while a folder is watched. */
export function WatchStarter(): JSX.Element | null {
  const bench = useBench();
  if (bench.watch.shown.value) return null;
  if (bench.state.value.shell === 'desktop') {
    return (
      <button class="watch-starter" onClick={() => void bench.watch.choose()}>
        Watch a folder
      </button>
    );
  }
  return (
    <p class="hint">
      Photos can be measured as a camera or phone delivers them: <code>evendial serve --watch FOLDER</code>
    </p>
  );
}
