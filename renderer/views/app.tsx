import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { BenchError } from '../../core/contract/bench';
import type { Bench } from '../state/bench';
import { stations, type Station } from '../state/bench-state';
import type { Look } from '../state/look';
import { BenchContext } from './bench-context';
import { CompareStation } from './compare/compare-station';
import { EmptyBench } from './empty';
import { Glyph } from './glyph';
import { KeyList } from './key-list';
import { OutlineStation } from './outline/outline-station';
import { PhotosStation } from './photos/photos-station';
import { ReadingStation } from './reading/reading-station';
import { actOnKey } from './screen-keys';
import { Stack } from './stack';
import { WatchBar } from './watch/watch-bar';

const stationNames: Readonly<Record<Station, string>> = {
  photos: 'Photo',
  outline: 'Outline',
  reading: 'Reading',
  compare: 'Compare',
};

interface AppProps {
  readonly bench: Bench;
  readonly look: Look;
}

/** Takes files dropped anywhere on the page, and pasted ones. @returns whether something is being dragged over it */
function useDrops(bench: Bench): boolean {
  const [isOver, setIsOver] = useState(false);
  useEffect(() => {
    const over = (event: DragEvent): void => {
      event.preventDefault();
      setIsOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setIsOver(false);
    };
    const drop = (event: DragEvent): void => {
      event.preventDefault();
      setIsOver(false);
      void bench.addFiles([...(event.dataTransfer?.files ?? [])]);
    };
    const paste = (event: ClipboardEvent): void => void bench.addFiles([...(event.clipboardData?.files ?? [])]);
    document.addEventListener('dragover', over);
    document.addEventListener('dragleave', leave);
    document.addEventListener('drop', drop);
    document.addEventListener('paste', paste);
    return () => {
      document.removeEventListener('dragover', over);
      document.removeEventListener('dragleave', leave);
      document.removeEventListener('drop', drop);
      document.removeEventListener('paste', paste);
    };
  }, [bench]);
  return isOver;
}

/** The bench: top bar, stack, one station, foot line. */
export function App({ bench, look }: AppProps): JSX.Element {
  const { photos, selected, station, isReady, startError, engineStopped } = bench.state.value;
  const photo = bench.photo(selected);
  const chooser = useRef<HTMLInputElement>(null);
  const [isHelpOpen, setIsHelpOpen] = useState(false);
  const isDraggedOver = useDrops(bench);
  const open = (): void => chooser.current?.click();

  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (actOnKey(event, bench, look, open, () => setIsHelpOpen(true))) event.preventDefault();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [bench]);

  const stationView = photo && {
    photos: <PhotosStation photo={photo} />,
    outline: <OutlineStation photo={photo} />,
    reading: <ReadingStation photo={photo} />,
    compare: <CompareStation photo={photo} />,
  };
  return (
    <BenchContext.Provider value={bench}>
      <div class="app">
        <TopBar bench={bench} look={look} />
        <div>
          {engineStopped !== null && <EngineStopped bench={bench} />}
          <WatchBar />
        </div>
        {startError ? (
          <NotStarted error={startError} />
        ) : !isReady ? (
          <main class="well">
            <p role="status">The engine is being started.</p>
          </main>
        ) : photos.length === 0 && bench.state.value.refusedFiles.length === 0 ? (
          <EmptyBench onOpen={open} />
        ) : (
          <div class="bench">
            <Stack onOpen={open} />
            {stationView ? stationView[station] : <NoPhoto />}
          </div>
        )}
        <Foot bench={bench} onHelp={() => setIsHelpOpen(true)} />
      </div>
      <input
        ref={chooser}
        type="file"
        multiple
        hidden
        data-chooser
        accept="image/*,.heic,.heif,.tif,.tiff,.avif"
        onChange={(event) => {
          void bench.addFiles([...(event.currentTarget.files ?? [])]);
          event.currentTarget.value = '';
        }}
      />
      {isDraggedOver && <div class="over-all">Drop to measure</div>}
      <KeyList look={look} isOpen={isHelpOpen} onClose={() => setIsHelpOpen(false)} />
    </BenchContext.Provider>
  );
}

/** The host does not know this page, or is gone. */
function NotStarted({ error }: { readonly error: BenchError }): JSX.Element {
  return (
    <main class="well empty">
      <div class="target" role="alert">
        <h1>
          <Glyph kind="refuse" /> {error.message}
        </h1>
        <p>{error.remedy}</p>
      </div>
    </main>
  );
}

function NoPhoto(): JSX.Element {
  return (
    <>
      <main class="well" />
      <aside class="side">
        <h2>No photo could be taken onto the bench.</h2>
        <p>The reasons stand on the left. Drop another one.</p>
      </aside>
    </>
  );
}

function TopBar({ bench, look }: AppProps): JSX.Element {
  const { photos, selected, station } = bench.state.value;
  const photo = bench.photo(selected);
  const { done, undone } = bench.history.value;
  return (
    <header class="top">
      <div class="trail">
        <span>Bench</span>
        {photo && (
          <>
            <i />
            <b title={photo.name}>{photo.name}</b>
          </>
        )}
      </div>
      <nav class="stations" aria-label="Stations">
        {photos.length > 0 &&
          stations.map((name, i) => (
            <button
              key={name}
              aria-current={name === station ? 'page' : undefined}
              onClick={() => bench.goTo(name)}
              data-station={name}
            >
              <kbd aria-hidden="true">{i + 1}</kbd> {stationNames[name]}
            </button>
          ))}
      </nav>
      <div class="tools">
        <button
          class="plain"
          disabled={done.length === 0}
          title={done.length ? `Undo: ${done[done.length - 1].what}` : 'Nothing to undo'}
          onClick={() => bench.undo()}
        >
          Undo
        </button>
        <button
          class="plain"
          disabled={undone.length === 0}
          title={undone.length ? `Again: ${undone[undone.length - 1].what}` : 'Nothing to do again'}
          onClick={() => bench.redo()}
        >
          Redo
        </button>
        <button class="plain" onClick={() => look.otherTheme()}>
          {look.choice.value.theme === 'dark' ? 'Light' : 'Dark'}
        </button>
      </div>
    </header>
  );
}

function EngineStopped({ bench }: { readonly bench: Bench }): JSX.Element {
  const lost = bench.state.value.photos.filter(
    ({ status }) => status.kind === 'failed' && status.error.kind === 'engine-stopped',
  );
  return (
    <div class="stopped-bar" role="alert">
      <div>
        <Glyph kind="refuse" /> <b>The engine has stopped by itself.</b> Photos, outlines and readings are safe; nothing
        is lost but what was being measured
        {lost.length > 0 ? `: ${lost.map(({ name }) => name).join(', ')}` : ''}.
      </div>
      <button class="go" onClick={() => bench.restart()}>
        Start it again
      </button>
    </div>
  );
}

function Foot({ bench, onHelp }: { readonly bench: Bench; readonly onHelp: () => void }): JSX.Element {
  const { said, photos, version } = bench.state.value;
  const open = photos.filter(({ status }) => status.kind === 'waiting' || status.kind === 'measuring').length;
  return (
    <footer class="foot">
      <span>Nothing leaves this machine</span>
      <span class="said" role="status">
        {open > 0 ? `${photos.length - open} of ${photos.length} photos measured` : said}
      </span>
      <span class="keys">
        <span>
          <kbd>S</kbd> surround
        </span>
        <span>
          <kbd>T</kbd> theme
        </span>
        <button class="plain" onClick={onHelp}>
          <kbd>?</kbd> all keys
        </button>
        <span>Evendial {version}</span>
      </span>
    </footer>
  );
}
