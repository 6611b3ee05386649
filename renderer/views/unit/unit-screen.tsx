import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { UnitView } from '../../state/place';
import type { Selection } from '../../state/selection';
import { useBook, useUnit } from '../book-context';
import { Facts } from '../record/facts';
import { Sheet } from '../record/sheet';
import { Timeline } from '../record/timeline';
import { NewTrial } from './new-trial';
import { NewWindow } from './new-window';
import { PhotoSide, WindowSide } from './other-sides';
import { NotSavedBar, ReadOnlyBar, RefusedBar } from './save-state';
import { TrialSide } from './trial-side';
import { UnitFailed } from './unit-failed';
import { UnitSide } from './unit-side';
import { WindowStave } from './window-stave';

interface UnitScreenProps {
  readonly unit: string;
  readonly view: UnitView;
  /** Lays the photos of a window on the bench. */
  readonly onLay: (window: string) => void;
}

/** While another program has the book, what it does is looked at so often. */
const lookAgainMs = 3000;

/** One unit, once it is read. */
export function UnitScreen(props: UnitScreenProps): JSX.Element {
  const { book } = useBook();
  const { record, recordError, readOnly } = book.state.value;
  useEffect(() => {
    void book.list();
    void book.open(props.unit);
  }, [book, props.unit]);
  useEffect(() => {
    if (readOnly === null) return undefined;
    const again = setInterval(() => {
      void book.list();
      void book.open(props.unit);
    }, lookAgainMs);
    return () => clearInterval(again);
  }, [readOnly === null, props.unit]);
  if (recordError) return <UnitFailed unit={props.unit} error={recordError} />;
  if (record?.id !== props.unit) {
    return (
      <main class="well">
        <p role="status">The record is being read.</p>
      </main>
    );
  }
  return (
    <div class="unit-screen">
      <div class="bars">
        <ReadOnlyBar />
        <NotSavedBar />
        <RefusedBar />
      </div>
      <div class={`bench without-stack ${props.view === 'facts' || props.view === 'timeline' ? 'without-side' : ''}`}>
        {props.view === 'windows' && <Windows key={record.id} onLay={props.onLay} />}
        {props.view === 'facts' && <Facts key={record.id} />}
        {props.view === 'timeline' && <Timeline key={record.id} />}
        {props.view === 'sheet' && <Sheet key={record.id} />}
      </div>
    </div>
  );
}

function Windows({ onLay }: { readonly onLay: (window: string) => void }): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const [isWindowAsked, setIsWindowAsked] = useState(false);
  const [trialFor, setTrialFor] = useState<string | null>(null);
  const { readOnly, selected } = book.state.value;
  // Who comes back from another view is shown the unit as a whole.
  useEffect(() => () => book.select({ kind: 'unit' }), [book]);
  return (
    <>
      <main class="well staves" aria-label="Windows">
        {record.windows.map((window, i) => (
          <WindowStave
            key={i}
            window={window}
            selection={selected}
            onSelect={(selection) => book.select(selection)}
            onLay={onLay}
            onNewTrial={setTrialFor}
          />
        ))}
        {record.windows.length === 0 ? (
          <div class="first-window">
            <h2>No window yet</h2>
            <p>
              A window is one lit opening: a tuning scale, a level meter. Add one with its size, or drop photos anywhere
              and file them into this unit from the bench: the window is then taken over from there.
            </p>
            <button class="go" disabled={readOnly !== null} onClick={() => setIsWindowAsked(true)}>
              Add a window
            </button>
          </div>
        ) : (
          <p class="row">
            <button disabled={readOnly !== null} onClick={() => setIsWindowAsked(true)}>
              Add a window
            </button>
            {selected.kind !== 'unit' && (
              <button class="plain" onClick={() => book.select({ kind: 'unit' })}>
                The unit as a whole
              </button>
            )}
          </p>
        )}
        <NewWindow isOpen={isWindowAsked} onClose={() => setIsWindowAsked(false)} />
        <NewTrial isOpen={trialFor !== null} window={trialFor ?? ''} onClose={() => setTrialFor(null)} />
      </main>
      <aside class="side unit-side" aria-label="What is selected">
        <Side selection={selected} />
      </aside>
    </>
  );
}

/** Keyed by the place in its list: an item that is given another name is the same one, and keeps focus and what is typed. */
function Side({ selection }: { readonly selection: Selection }): JSX.Element {
  const record = useUnit();
  if (selection.kind === 'window') {
    const at = record.windows.findIndex(({ name }) => name === selection.window);
    if (at >= 0) return <WindowSide key={at} window={record.windows[at]} />;
  }
  if (selection.kind === 'trial') {
    const at = record.trials.findIndex(({ name }) => name === selection.trial);
    if (at >= 0) return <TrialSide key={at} trial={record.trials[at]} window={selection.window} />;
  }
  if (selection.kind === 'photo') {
    const { sha256, role, trial, window } = selection;
    const photo = record.photos.find(
      (one) => one.sha256 === sha256 && one.role === role && (one.trial ?? null) === trial,
    );
    if (photo) return <PhotoSide photo={photo} window={window} />;
  }
  return <UnitSide />;
}
