import type { JSX } from 'preact';
import { useMemo } from 'preact/hooks';
import type { MappedWindow } from '../../../core/contract/measure';
import { luminancePanel, windowForecastPanel } from '../../../core/display/panels';
import type { Forecast } from '../../advice-messages';
import { foldedUnder, MapRow, useZoomKeys } from '../reading/maps';
import { ReadingView, ReadingViewContext } from '../reading/reading-view';
import { Ruler } from '../reading/ruler';

interface ForecastMapsProps {
  readonly entry: MappedWindow;
  /** null: nothing is tried. */
  readonly forecast: Forecast | null;
}

/** The light as it was measured and as it would be, on one axis and one scale. */
export function ForecastMaps({ entry, forecast }: ForecastMapsProps): JSX.Element {
  const { widthMm, heightMm } = entry.maps;
  const view = useMemo(() => new ReadingView({ widthMm, heightMm }), [entry]);
  const now = useMemo(() => luminancePanel(entry), [entry]);
  const then = useMemo(
    () => (forecast ? windowForecastPanel(forecast.light, forecast.cellsPerMm, entry) : null),
    [forecast, entry],
  );
  useZoomKeys(view);
  const isFolded = widthMm / heightMm < foldedUnder;
  return (
    <ReadingViewContext.Provider value={view}>
      <div class={`strips ${isFolded ? 'folded' : ''}`}>
        {!isFolded && (
          <>
            <div class="label">mm</div>
            <Ruler />
            <span />
          </>
        )}
        <MapRow name="Now" note="measured" panel={now} label="Luminance as measured" isFolded={isFolded} />
        {then && (
          <MapRow name="Forecast" note="not a photo" panel={then} label="Luminance as forecast" isFolded={isFolded} />
        )}
      </div>
    </ReadingViewContext.Provider>
  );
}
