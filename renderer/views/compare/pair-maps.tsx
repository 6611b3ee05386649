import type { JSX } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { differenceMap } from '../../../core/display/difference-map';
import type { MappedWindow } from '../../../core/contract/measure';
import { luminancePanel, trialDifferencePanel, windowPanel, type Panel } from '../../../core/display/panels';
import { foldedUnder, MapRow, useZoomKeys } from '../reading/maps';
import { ReadingView, ReadingViewContext } from '../reading/reading-view';
import { Ruler } from '../reading/ruler';
import { ScaleBar } from '../reading/scale-bar';
import { Strip } from '../reading/strip';
import { doPlainKeysAct, isTyping } from '../screen-keys';

interface Side {
  readonly name: string;
  readonly entry: MappedWindow;
}

interface SlideProps {
  readonly name: string;
  readonly note: string;
  readonly panels: readonly [Panel, Panel];
  /** How much of the first is shown, from the left, 0..1. */
  readonly split: number;
}

/** Two maps of one window in one place: the first left of the edge, the second right of it. */
function SlideRow({ name, note, panels: [first, second], split }: SlideProps): JSX.Element {
  return (
    <>
      <div class="label">
        <b>{name}</b>
        <span>{note}</span>
        {first.scale && <ScaleBar scale={first.scale} />}
      </div>
      <div class="slide">
        <Strip panel={first} label={`${name} of the first photo`} />
        <div class="over" style={{ clipPath: `inset(0 0 0 ${(100 * split).toFixed(2)}%)` }}>
          <Strip panel={second} label={`${name} of the second photo`} />
        </div>
        <i class="edge" style={{ left: `${(100 * split).toFixed(2)}%` }} />
      </div>
      <span />
    </>
  );
}

/** `B` shows the one, then the other, whole. */
function useAlternate(setSplit: (change: (split: number) => number) => void): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key.toLowerCase() !== 'b' || event.ctrlKey || event.metaKey || event.altKey) return;
      if (!isTyping(event.target) && doPlainKeysAct()) setSplit((split) => (split > 0.5 ? 0 : 1));
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [setSplit]);
}

/** Two readings of one window on one mm axis: slide from one to the other, and what the one has more of. */
export function PairMaps({ first, second }: { readonly first: Side; readonly second: Side }): JSX.Element {
  const [split, setSplit] = useState(0.5);
  const { widthMm, heightMm } = first.entry.reading.outline;
  const view = useMemo(() => new ReadingView({ widthMm, heightMm }), [first.entry, second.entry]);
  useZoomKeys(view);
  useAlternate(setSplit);
  const made = useMemo(() => {
    const both = [first.entry, second.entry] as const;
    const [a, b] = both.map(({ maps }) => maps.glowLuminance);
    const isSameSize = a.width === b.width && a.height === b.height;
    return {
      window: both.map(windowPanel) as [Panel, Panel],
      luminance: both.map(luminancePanel) as [Panel, Panel],
      difference: isSameSize
        ? trialDifferencePanel(differenceMap(second.entry.maps, first.entry.maps), first.entry)
        : null,
    };
  }, [first.entry, second.entry]);
  return (
    <ReadingViewContext.Provider value={view}>
      <div class="row apart">
        <label class="slider">
          <span>{first.name}</span>
          <input
            type="range"
            min={0}
            max={1}
            step={0.01}
            value={split}
            aria-label={`How much of ${first.name} is shown, from the left; the rest is ${second.name}`}
            onInput={(event) => setSplit(Number(event.currentTarget.value))}
          />
          <span>{second.name}</span>
        </label>
        <button aria-pressed={split === 0 || split === 1} onClick={() => setSplit((now) => (now > 0.5 ? 0 : 1))}>
          <kbd>B</kbd> Alternate
        </button>
      </div>
      <div class={`strips ${widthMm / heightMm < foldedUnder ? 'narrow' : ''}`}>
        <div class="label">mm</div>
        <Ruler />
        <span />
        <SlideRow name="Window" note="as photographed" panels={made.window} split={split} />
        <SlideRow name="Luminance" note="× own glow" panels={made.luminance} split={split} />
        {made.difference ? (
          <MapRow
            name="Difference"
            note={`more, less than ${second.name}`}
            panel={made.difference}
            label={`Where ${first.name} has more of its light than ${second.name}, and where less`}
            isFolded={false}
          />
        ) : (
          <>
            <div class="label">
              <b>Difference</b>
            </div>
            <div class="no-map">
              <span>The two windows are not of one size: give both the same.</span>
            </div>
            <span />
          </>
        )}
      </div>
    </ReadingViewContext.Provider>
  );
}
