import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { MappedWindow } from '../../../core/contract/measure';
import {
  chromaticityPanels,
  luminancePanel,
  printPanel,
  unevennessPanel,
  windowPanel,
  type Panel,
} from '../../../core/display/panels';
import { doPlainKeysAct, isTyping } from '../screen-keys';
import { ProfileChart } from './profile-chart';
import { ReadingView, ReadingViewContext, useReadingView } from './reading-view';
import { Ruler } from './ruler';
import { ScaleBar } from './scale-bar';
import { SpotMarks, Strip } from './strip';
import { UnderPointer } from './under-pointer';

const stripNames = ['Window', 'Luminance', 'Unevenness', 'Colour', 'Print found', 'Profile'] as const;
type StripName = (typeof stripNames)[number];

/** Folded strips on a tall window would run off the screen: rounder windows show their maps two by two. */
export const foldedUnder = 2;

interface MapRowProps {
  readonly name: string;
  readonly note: string;
  readonly panel: Panel;
  readonly label: string;
  readonly isFolded: boolean;
}

export function MapRow({ name, note, panel, label, isFolded }: MapRowProps): JSX.Element {
  const strip = (
    <Strip panel={panel} label={label}>
      <SpotMarks panel={panel} />
    </Strip>
  );
  if (isFolded) {
    return (
      <div class="strip-cell">
        <p class="label">
          <b>{name}</b> {note}
        </p>
        <div class="beside">
          {strip}
          <div>{panel.scale && <ScaleBar scale={panel.scale} />}</div>
          <Ruler />
        </div>
      </div>
    );
  }
  const head = (
    <div class="label">
      <b>{name}</b>
      <span>{note}</span>
      {panel.scale && <ScaleBar scale={panel.scale} />}
    </div>
  );
  return (
    <>
      {head}
      {strip}
      <span />
    </>
  );
}

function StripChoice(props: {
  readonly shown: readonly StripName[];
  readonly onChange: (shown: readonly StripName[]) => void;
}): JSX.Element {
  const { shown, onChange } = props;
  const toggled = (name: StripName): readonly StripName[] =>
    shown.includes(name) ? shown.filter((other) => other !== name) : [...shown, name];
  return (
    <div class="choice" role="group" aria-label="Maps shown">
      {stripNames.map((name) => (
        <button key={name} aria-pressed={shown.includes(name)} onClick={() => onChange(toggled(name))}>
          {name}
        </button>
      ))}
    </div>
  );
}

function ProfileRow({ entry, isFolded }: { readonly entry: MappedWindow; readonly isFolded: boolean }): JSX.Element {
  const { profileAtMm } = useReadingView();
  const head = (
    <>
      <b>Profile</b> <span>along, at {profileAtMm.value.toFixed(0)} mm</span> <span>click a map to move it</span>
    </>
  );
  if (!isFolded) {
    return (
      <>
        <div class="label">{head}</div>
        <ProfileChart entry={entry} />
      </>
    );
  }
  return (
    <div class="strip-cell">
      <p class="label">{head}</p>
      <div class="beside">
        <ProfileChart entry={entry} />
        <Ruler />
      </div>
    </div>
  );
}

/** + and - enlarge and reduce, 0 shows the whole window. */
export function useZoomKeys(view: ReadingView): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!doPlainKeysAct() || isTyping(event.target) || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === '+' || event.key === '=') view.zoom(1.5);
      else if (event.key === '-') view.zoom(1 / 1.5);
      else if (event.key === '0') view.showAll();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [view]);
}

type PanelName = 'window' | 'luminance' | 'unevenness' | 'print' | 'u' | 'v';

const panelOf: Readonly<Record<PanelName, (entry: MappedWindow) => Panel>> = {
  window: windowPanel,
  luminance: luminancePanel,
  unevenness: unevennessPanel,
  print: printPanel,
  u: (entry) => chromaticityPanels(entry)[0],
  v: (entry) => chromaticityPanels(entry)[1],
};

/** Panels of a reading, each made when it is first shown. */
function usePanels(entry: MappedWindow): (name: PanelName) => Panel {
  const made = useMemo(() => new Map<PanelName, Panel>(), [entry]);
  return (name) => {
    const panel = made.get(name) ?? panelOf[name](entry);
    made.set(name, panel);
    return panel;
  };
}

/** The maps of a reading, one under another on one mm axis. */
export function Maps(props: {
  readonly entry: MappedWindow;
  /** Controls beside those of the maps. */
  readonly children?: ComponentChildren;
}): JSX.Element {
  const { entry, children } = props;
  const [shown, setShown] = useState<readonly StripName[]>(['Window', 'Luminance', 'Unevenness', 'Profile']);
  const { widthMm, heightMm, sizeKnown } = entry.reading.outline;
  const view = useMemo(() => new ReadingView({ widthMm, heightMm }), [entry]);
  const panels = usePanels(entry);
  useZoomKeys(view);
  const isFolded = widthMm / heightMm < foldedUnder;
  const row = (name: string, note: string, panel: Panel, label: string): JSX.Element => (
    <MapRow key={name} name={name} note={note} panel={panel} label={label} isFolded={isFolded} />
  );
  const { spots, evenness } = entry.reading;
  // The reason stands beside it, in the place of the score.
  const unseen = evenness.score.value === null ? 'no map: see the checks' : 'as the eye sees it';
  return (
    <ReadingViewContext.Provider value={view}>
      <div class="row apart">
        <StripChoice shown={shown} onChange={setShown} />
        <div class="row">
          <button class="plain" onClick={() => view.zoom(1.5)} aria-label="Enlarge">
            +
          </button>
          <button class="plain" onClick={() => view.zoom(1 / 1.5)} aria-label="Reduce">
            −
          </button>
          <button class="plain" onClick={() => view.showAll()}>
            Fit
          </button>
          {children}
        </div>
      </div>
      <div class={`strips ${isFolded ? 'folded' : ''}`}>
        {!isFolded && (
          <>
            <div class="label">{sizeKnown ? 'mm' : 'mm, if 60 wide'}</div>
            <Ruler />
            <span />
          </>
        )}
        {shown.includes('Window') && row('Window', 'straightened', panels('window'), 'The window, straightened')}
        {shown.includes('Luminance') &&
          row('Luminance', '× glow', panels('luminance'), `Luminance map with ${spots.length} numbered spots`)}
        {shown.includes('Unevenness') &&
          row('Unevenness', unseen, panels('unevenness'), 'Unevenness as the eye sees it')}
        {shown.includes('Colour') &&
          (['u', 'v'] as const).map((axis) =>
            row(`Colour, ${axis}′`, 'less its mean', panels(axis), 'Where the colour differs'),
          )}
        {shown.includes('Print found') &&
          row(
            'Print found',
            entry.reading.outline.print === 'light' ? 'grey: lit' : 'red, dark',
            panels('print'),
            'Print that was found',
          )}
        {shown.includes('Profile') && <ProfileRow entry={entry} isFolded={isFolded} />}
      </div>
      <UnderPointer entry={entry} />
    </ReadingViewContext.Provider>
  );
}
