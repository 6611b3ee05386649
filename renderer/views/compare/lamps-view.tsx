import type { JSX } from 'preact';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { PhotoId } from '../../../core/contract/bench';
import type { MappedWindow } from '../../../core/contract/measure';
import { windowForecastPanel } from '../../../core/display/panels';
import { shortFigure } from '../../../core/display/figure-text';
import type { FromLampsWorker, LampAlone, ToLampsWorker } from '../../lamps-messages';
import { useBench } from '../bench-context';
import { evennessAxis, LeadingFigure } from '../figure-view';
import { ReadingView, ReadingViewContext } from '../reading/reading-view';
import { Ruler } from '../reading/ruler';
import { ScaleBar } from '../reading/scale-bar';
import { Strip } from '../reading/strip';
import type { ComparedPhotos } from './compared-photos';

/** The slider is in steps of a factor: half and double are as far from 1. */
const mostFactor = 4;

function aloneOf(name: string, { reading, maps }: MappedWindow): LampAlone {
  const { widthMm, heightMm } = reading.outline;
  const { glowLuminance: glow, exposureNormalised: isExposureNormalised } = maps;
  return { name, score: reading.evenness.score, glow, widthMm, heightMm, isExposureNormalised };
}

/** The command line has other words for what to do. */
const remedies: Readonly<Record<string, string>> = {
  LAMPS_OF_OTHER_SIZES: 'Give all of them the same size in mm on station Outline.',
  LAMPS_EXPOSURE_UNKNOWN: 'Take photos whose files tell their exposure, all alike.',
};

interface Answered {
  readonly sum: Extract<FromLampsWorker, { type: 'sum' }> | null;
  readonly best: Extract<FromLampsWorker, { type: 'best' }> | null;
  readonly refused: Extract<FromLampsWorker, { type: 'refused' }> | null;
}
const nothing: Answered = { sum: null, best: null, refused: null };

/** Has a worker add up the lamps; while it is at it, only the ratios set last are kept for it. */
function useLampSum(lamps: readonly LampAlone[], key: string, ratios: readonly number[]): Answered {
  const worker = useRef<Worker | null>(null);
  const waiting = useRef<readonly number[] | null>(null);
  const isBusy = useRef(false);
  const [answered, setAnswered] = useState<Answered>(nothing);
  const send = (message: ToLampsWorker): void => worker.current?.postMessage(message);
  const ask = (asked: readonly number[]): void => {
    if (isBusy.current) {
      waiting.current = asked;
      return;
    }
    isBusy.current = true;
    send({ type: 'ratios', ratios: asked });
  };
  useEffect(() => {
    setAnswered(nothing);
    if (lamps.length < 2) return undefined;
    const own = new Worker('lamps-worker.js', { type: 'module' });
    worker.current = own;
    isBusy.current = true;
    own.onmessage = ({ data }: MessageEvent<FromLampsWorker>) => {
      setAnswered((now) => (data.type === 'refused' ? { ...now, refused: data } : { ...now, [data.type]: data }));
      isBusy.current = false;
      const next = waiting.current;
      waiting.current = null;
      if (next) ask(next);
    };
    own.onerror = (event) => {
      throw new Error(event.message);
    };
    send({ type: 'lamps', lamps });
    waiting.current = ratios;
    return () => own.terminate();
  }, [key]);
  useEffect(() => {
    if (lamps.length >= 2) ask(ratios);
  }, [JSON.stringify(ratios)]);
  return answered;
}

/** Lamps that were photographed one at a time, added up at any currents: what turning one down would do. */
export function LampsView({ photo, photos, reference }: ComparedPhotos): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const trials = photos.filter(({ id }) => id !== reference);
  const [chosen, setChosen] = useState<readonly PhotoId[]>([]);
  const [factors, setFactors] = useState<Readonly<Record<PhotoId, number>>>({});
  const lamps = trials.filter(({ id }) => chosen.includes(id));
  const missing = lamps.filter(({ id }) => !bench.mapsOf(id));
  useEffect(() => {
    for (const { id } of missing) bench.measure(id, true);
  }, [missing.map(({ id }) => id).join(' ')]);
  const entries = missing.length > 0 ? [] : lamps.map(({ id, name }) => aloneOf(name, bench.mapsOf(id)!));
  const key = JSON.stringify(missing.length > 0 ? [] : lamps.map(({ id, reading }) => [id, reading.timingMs]));
  const ratios = lamps.map(({ id }, i) => (i === 0 ? 1 : (factors[id] ?? 1)));
  const { sum, best, refused } = useLampSum(entries, key, ratios);
  const { widthMm, heightMm } = photo.reading.outline;
  const view = useMemo(() => new ReadingView({ widthMm, heightMm }), [widthMm, heightMm]);
  const shape = lamps.length > 0 ? bench.mapsOf(lamps[0].id) : undefined;
  const panel = useMemo(
    () => (sum && shape ? windowForecastPanel(sum.light, sum.cellsPerMm, shape) : null),
    [sum, shape],
  );
  const toggle = (id: PhotoId): void =>
    setChosen(chosen.includes(id) ? chosen.filter((other) => other !== id) : [...chosen, id]);
  const bestText = (i: number): string => (best && i > 0 ? shortFigure(best.ratios[i]) : '');
  return (
    <>
      <fieldset class="lamp-choice">
        <legend>Photos with one lamp lit alone, all taken alike</legend>
        {trials.map(({ id, name }) => (
          <label key={id} class="row">
            <input type="checkbox" checked={chosen.includes(id)} onChange={() => toggle(id)} data-lamp={name} />
            {name}
          </label>
        ))}
      </fieldset>
      {lamps.length < 2 && (
        <div class="no-map tall">
          <span>
            Choose two photos or more. Their light adds up: any currents can be tried before a resistor is changed.
          </span>
        </div>
      )}
      {refused && lamps.length >= 2 && (
        <div class="no-map tall" role="alert">
          <span>
            {refused.error.message}. {remedies[refused.error.code] ?? refused.error.remedy}
          </span>
        </div>
      )}
      {lamps.length >= 2 && !refused && (
        <>
          <table class="lamp-ratios">
            <thead>
              <tr>
                <th>Lamp</th>
                <th>Current, of that in its photo</th>
                <th>Most even at</th>
              </tr>
            </thead>
            <tbody>
              {lamps.map(({ id, name }, i) => (
                <tr key={id}>
                  <th scope="row">{name}</th>
                  <td>
                    {i === 0 ? (
                      '1.00, kept'
                    ) : (
                      <label class="slider one">
                        <span>{ratios[i].toFixed(2)}</span>
                        <input
                          type="range"
                          min={-Math.log2(mostFactor)}
                          max={Math.log2(mostFactor)}
                          step={0.02}
                          value={Math.log2(ratios[i])}
                          aria-label={`Current of ${name} over that of its photo`}
                          aria-valuetext={ratios[i].toFixed(2)}
                          onInput={(event) => setFactors({ ...factors, [id]: 2 ** Number(event.currentTarget.value) })}
                        />
                      </label>
                    )}
                  </td>
                  <td>{bestText(i)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {best && (
            <button
              onClick={() =>
                setFactors(
                  Object.fromEntries(lamps.map(({ id }, i) => [id, Math.min(mostFactor, best.ratios[i].value ?? 1)])),
                )
              }
            >
              Take the most even currents: {shortFigure(best.evenness)}
            </button>
          )}
          <ReadingViewContext.Provider value={view}>
            <div class="strips">
              <div class="label">mm</div>
              <Ruler />
              <span />
              <div class="label">
                <b>Forecast</b>
                <span>× own glow</span>
                {panel?.scale && <ScaleBar scale={panel.scale} />}
              </div>
              {panel ? (
                <Strip panel={panel} label="Forecast luminance of all lamps together" />
              ) : (
                <div class="no-map waiting tall" role="status">
                  <span>The lamps are being added up.</span>
                </div>
              )}
              <span />
            </div>
          </ReadingViewContext.Provider>
          {sum && (
            <div class="forecast-figure" aria-live="polite">
              <LeadingFigure
                name="Forecast evenness"
                unit="of 100, a forecast"
                figure={sum.evenness}
                axis={evennessAxis}
                words=""
                isWaiting={false}
              />
            </div>
          )}
          <p class="plot-note">
            Light adds up, and an LED’s light follows its current; a filament’s does not. Stay within the rated current,
            and check the resistor’s power: Next change has both.
          </p>
        </>
      )}
    </>
  );
}
