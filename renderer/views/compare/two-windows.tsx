import { Fragment, type JSX } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import type { PhotoId } from '../../../core/contract/bench';
import type { Match } from '../../../core/contract/comparison';
import type { MappedWindow } from '../../../core/contract/measure';
import { dimmerPanel, luminancePanel, windowPanel, type Panel } from '../../../core/display/panels';
import type { SizeMm } from '../../canvas/viewport';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { ReadingView, ReadingViewContext } from '../reading/reading-view';
import { Ruler } from '../reading/ruler';
import { ScaleBar } from '../reading/scale-bar';
import { Strip } from '../reading/strip';

export interface NamedWindow {
  readonly name: string;
  readonly photo: MeasuredPhotoOnBench;
}

interface TwoWindowsProps {
  readonly windows: readonly [NamedWindow, NamedWindow];
  /** null: being worked out. */
  readonly match: Match | null;
}

/** Glow of a window over that of the brighter one; null where that cannot be told, or they are as bright as each other. */
function shareOfBrighter({ photo }: NamedWindow, match: Match | null): number | null {
  if (match === null || match.brighter === null || match.luminanceRatio.value === null) return null;
  return match.brighter === photo.id ? 1 : match.luminanceRatio.value;
}

/** What the colours of the luminance are times of. */
function scaleText(windows: TwoWindowsProps['windows'], match: Match | null): string {
  if (match === null || match.luminanceRatio.value === null)
    return 'Luminance of each over its own glow: the two cannot be put on one scale.';
  const brighter = windows.find(({ photo }) => photo.id === match.brighter);
  if (!brighter) return 'Luminance of each over its own glow: which is brighter cannot be told.';
  return `Luminance of both over the glow of ${brighter.name}, the brighter one.`;
}

/** Sizes that nobody gave are no common scale. */
function millimetreText(windows: TwoWindowsProps['windows']): string {
  const assumed = windows.filter(({ photo }) => !photo.reading.outline.sizeKnown).map(({ name }) => name);
  if (assumed.length === 0) return 'Both are drawn to one scale of millimetres.';
  const whose = assumed.length === 2 ? 'both' : assumed[0];
  return `The size of ${whose} is assumed: give it on Outline, so that both are drawn to one scale.`;
}

interface WindowPicturesProps {
  readonly name: string;
  readonly entry: MappedWindow;
  /** As wide as the wider of both, as high as this one: their millimetres are as large. */
  readonly room: SizeMm;
  /** Of its glow in that of the brighter window; null: it stands for itself. */
  readonly share: number | null;
}

const luminanceOf = (entry: MappedWindow, share: number | null): Panel =>
  share === null ? luminancePanel(entry) : dimmerPanel(entry, share);

/** One window and its luminance beside each other. */
function WindowPictures({ name, entry, room, share }: WindowPicturesProps): JSX.Element {
  const view = useMemo(() => new ReadingView(room), [room.widthMm, room.heightMm]);
  const panels = useMemo(() => [windowPanel(entry), luminanceOf(entry, share)], [entry, share]);
  return (
    <ReadingViewContext.Provider value={view}>
      {['The window', 'Luminance'].map((what, i) => (
        <div key={what}>
          <Ruler />
          <Strip panel={panels[i]} label={`${what} of ${name}`} />
        </div>
      ))}
    </ReadingViewContext.Provider>
  );
}

/** The maps of photos; those that are not kept any more are made again. */
function useMaps(ids: readonly PhotoId[]): readonly (MappedWindow | undefined)[] {
  const bench = useBench();
  void bench.pictures.value;
  const entries = ids.map((id) => bench.mapsOf(id));
  const missing = ids.filter((_, i) => entries[i] === undefined);
  useEffect(() => {
    for (const id of missing) bench.measure(id, true);
  }, [missing.join(' ')]);
  return entries;
}

/**
 * Two windows of a unit, straightened, with their luminance: one scale of millimetres, and one of luminance where the photos
 * tell it.
 *
 * @rule SC32
 */
export function TwoWindows({ windows, match }: TwoWindowsProps): JSX.Element {
  const entries = useMaps(windows.map(({ photo }) => photo.id));
  const sizes = windows.map(({ photo }) => photo.reading.outline);
  const widthMm = Math.max(...sizes.map((size) => size.widthMm));
  const scale = entries.map((entry) => entry && luminancePanel(entry).scale).find((one) => one !== undefined);
  return (
    <section class="two-windows" aria-label="Both windows, straightened">
      <p class="label">
        <b>Window</b> mm
      </p>
      <p class="label">
        <b>Luminance</b> mm
      </p>
      <div class="scales">{scale && <ScaleBar scale={scale} />}</div>
      {windows.map((window, i) => {
        const entry = entries[i];
        return (
          <Fragment key={window.photo.id}>
            <h2>{window.name}</h2>
            {entry ? (
              <WindowPictures
                name={window.name}
                entry={entry}
                room={{ widthMm, heightMm: sizes[i].heightMm }}
                share={shareOfBrighter(window, match)}
              />
            ) : (
              <div class="no-map waiting" role="status">
                <span>The maps are being made.</span>
              </div>
            )}
          </Fragment>
        );
      })}
      <p class="plot-note" data-scales>
        {millimetreText(windows)} {match !== null && scaleText(windows, match)}
      </p>
    </section>
  );
}
