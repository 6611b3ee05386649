import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Bench } from '../state/bench';
import { stations, type Station } from '../state/bench-state';
import { layUnit } from '../state/lay-unit';
import type { Look } from '../state/look';
import { unitViews, type UnitView } from '../state/place';
import { BenchContext } from './bench-context';
import { BookContext, useBook, type BookAround } from './book-context';
import { CompareStation } from './compare/compare-station';
import { EmptyBench } from './empty';
import { EngineStopped, Foot, LostBar, NoPhoto, NotStarted } from './frame-parts';
import { KeyList } from './key-list';
import { NextStation } from './next/next-station';
import { OutlineStation } from './outline/outline-station';
import { PhotosStation } from './photos/photos-station';
import { ReadingStation } from './reading/reading-station';
import { actOnKey } from './screen-keys';
import { Stack } from './stack';
import { takeFiles, useDrops } from './take-files';
import { FilingDialog } from './unit/filing-dialog';
import { SaveState } from './unit/save-state';
import { UnitScreen } from './unit/unit-screen';
import { UnitsScreen } from './units/units';
import { WatchBar } from './watch/watch-bar';

const stationNames: Readonly<Record<Station, string>> = {
  photos: 'Photo',
  outline: 'Outline',
  reading: 'Reading',
  compare: 'Compare',
  next: 'Next change',
};

const unitViewNames: Readonly<Record<UnitView, string>> = {
  windows: 'Windows',
  facts: 'Facts',
  timeline: 'Time line',
  sheet: 'Record sheet',
};

interface AppProps {
  readonly bench: Bench;
  readonly look: Look;
  readonly around: BookAround;
}

/** Top bar; the book, a unit of it, or the bench with its stack and one station; foot line. */
export function App({ bench, look, around }: AppProps): JSX.Element {
  const { isReady, startError, engineStopped } = bench.state.value;
  const { book, places, filings } = around;
  const place = places.now.value;
  const chooser = useRef<HTMLInputElement>(null);
  const [isHelpOpen, setIsHelpOpen] = useState(false);
  const [isFiling, setIsFiling] = useState(false);
  const isDraggedOver = useDrops((files, over) => void takeFiles(files, over, bench, around));
  const open = (): void => chooser.current?.click();
  const file = (): void => setIsFiling(bench.state.value.photos.length > 0);

  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const acts = { open, file, help: () => setIsHelpOpen(true) };
      if (actOnKey(event, bench, look, around, acts)) event.preventDefault();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [bench]);

  const lay = async (window: string): Promise<void> => {
    const { record } = book.state.value;
    if (record && (await layUnit(bench, book, filings, record, window))) places.goTo({ at: 'bench' });
  };
  return (
    <BenchContext.Provider value={bench}>
      <BookContext.Provider value={around}>
        <div class="app">
          <TopBar bench={bench} look={look} />
          <div>
            {engineStopped !== null && <EngineStopped bench={bench} />}
            <LostBar bench={bench} />
            <WatchBar />
          </div>
          {startError ? (
            <NotStarted error={startError} />
          ) : !isReady ? (
            <main class="well">
              <p role="status">The engine is being started.</p>
            </main>
          ) : place.at === 'units' ? (
            <UnitsScreen onOpenFiles={open} />
          ) : place.at === 'unit' ? (
            <UnitScreen unit={place.unit} view={place.view} onLay={(window) => void lay(window)} />
          ) : (
            <BenchScreen bench={bench} onOpen={open} onFile={file} />
          )}
          <Foot bench={bench} onHelp={() => setIsHelpOpen(true)} />
        </div>
        <input
          ref={chooser}
          type="file"
          multiple
          hidden
          data-chooser
          accept="image/*,.heic,.heif,.tif,.tiff,.avif,.evendial"
          onChange={(event) => {
            void takeFiles([...(event.currentTarget.files ?? [])], null, bench, around);
            event.currentTarget.value = '';
          }}
        />
        {isDraggedOver && <div class="over-all">Drop to measure</div>}
        <KeyList look={look} isOpen={isHelpOpen} onClose={() => setIsHelpOpen(false)} />
        <FilingDialog isOpen={isFiling} onClose={() => setIsFiling(false)} />
      </BookContext.Provider>
    </BenchContext.Provider>
  );
}

function BenchScreen(props: {
  readonly bench: Bench;
  readonly onOpen: () => void;
  readonly onFile: () => void;
}): JSX.Element {
  const { bench, onOpen, onFile } = props;
  const { photos, selected, station, refusedFiles } = bench.state.value;
  const photo = bench.photo(selected);
  if (photos.length === 0 && refusedFiles.length === 0) return <EmptyBench onOpen={onOpen} />;
  const stationView = photo && {
    photos: <PhotosStation photo={photo} />,
    outline: <OutlineStation photo={photo} />,
    reading: <ReadingStation photo={photo} />,
    compare: <CompareStation photo={photo} />,
    next: <NextStation photo={photo} />,
  };
  return (
    <div class="bench">
      <Stack onOpen={onOpen} onFile={onFile} />
      {stationView ? stationView[station] : <NoPhoto />}
    </div>
  );
}

function TopBar({ bench, look }: { readonly bench: Bench; readonly look: Look }): JSX.Element {
  const { places } = useBook();
  const place = places.now.value;
  return (
    <header class="top">
      <nav class="places" aria-label="Places">
        <button aria-current={place.at === 'units' ? 'page' : undefined} onClick={() => places.goTo({ at: 'units' })}>
          Units
        </button>
        <button
          data-place="bench"
          aria-current={place.at === 'bench' ? 'page' : undefined}
          onClick={() => places.goTo({ at: 'bench' })}
        >
          Bench
        </button>
      </nav>
      <Trail bench={bench} />
      {place.at === 'bench' && <Stations bench={bench} />}
      {place.at === 'unit' && (
        <nav class="stations" aria-label="Views of the unit">
          {unitViews.map((view, i) => (
            <button
              key={view}
              aria-current={view === place.view ? 'page' : undefined}
              onClick={() => places.goTo({ ...place, view })}
              data-view={view}
            >
              <kbd aria-hidden="true">{i + 1}</kbd> {unitViewNames[view]}
            </button>
          ))}
        </nav>
      )}
      <div class="tools">
        {place.at === 'unit' && <SaveState />}
        {place.at === 'bench' && <BenchUndo bench={bench} />}
        {place.at === 'unit' && <UnitUndo />}
        <button class="plain" onClick={() => look.otherTheme()}>
          {look.choice.value.theme === 'dark' ? 'Light' : 'Dark'}
        </button>
      </div>
    </header>
  );
}

/** Where one is, inside the place. */
function Trail({ bench }: { readonly bench: Bench }): JSX.Element {
  const { book, places, filings } = useBook();
  const place = places.now.value;
  const photo = place.at === 'bench' ? bench.photo(bench.state.value.selected) : null;
  const { record } = book.state.value;
  const name = place.at === 'unit' && record?.id === place.unit ? record.name : photo?.name;
  const filing = photo && filings.of(photo.id);
  return (
    <div class="trail">
      {filing && (
        <button
          class="plain"
          title={`${filing.unitName}, ${filing.window}`}
          onClick={() => places.goTo({ at: 'unit', unit: filing.unit, view: 'windows' })}
        >
          {filing.unitName}
        </button>
      )}
      {name !== undefined && place.at !== 'units' && (
        <>
          <i />
          <b title={name}>{name}</b>
        </>
      )}
    </div>
  );
}

function Stations({ bench }: { readonly bench: Bench }): JSX.Element {
  const { photos, station } = bench.state.value;
  return (
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
  );
}

function BenchUndo({ bench }: { readonly bench: Bench }): JSX.Element {
  const { done, undone } = bench.history.value;
  return (
    <>
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
    </>
  );
}

/** Of the record: also what was done on another day. */
function UnitUndo(): JSX.Element {
  const { book } = useBook();
  const { record, readOnly, unsaved } = book.state.value;
  const isLocked = readOnly !== null;
  const hasUnsaved = unsaved.some(({ unit }) => unit === record?.id);
  return (
    <>
      <button
        class="plain"
        disabled={isLocked || !record || (record.undo === null && !hasUnsaved)}
        title="Take back the last change of this unit"
        onClick={() => void book.restore('undo')}
      >
        Undo
      </button>
      <button
        class="plain"
        disabled={isLocked || !record || record.redo === null}
        title="Do it again"
        onClick={() => void book.restore('redo')}
      >
        Redo
      </button>
    </>
  );
}
