import type { JSX } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { assumedSizeCaution } from '../../../core/advice/assumed-size';
import { missing } from '../../../core/contract/figure';
import type { PhotoRole } from '../../../core/contract/unit-record';
import type { MappedWindow } from '../../../core/contract/measure';
import { hasReading, type PhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { useBook } from '../book-context';
import { proposedRole } from '../../state/propose-filing';
import { showSameWindow } from '../../state/same-window';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import { evennessAxis, LeadingFigure } from '../figure-view';
import { Glyph } from '../glyph';
import { Families } from './families';
import { ForecastMaps } from './forecast-maps';
import { LampMix } from './lamp-mix';
import { MoveLamp, type Move } from './move-lamp';
import { PlanList } from './plan-list';
import { ShadeTool } from './shade-tool';
import { SuggestionList } from './suggestion-list';
import { tools, toolWords, type Tool, type Tried } from './tools';
import { advisedWindow, useAdvice } from './use-advice';

/** Station 5: what to change next, tried on the measured light before anything is touched. */
export function NextStation({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const entry = bench.mapsOf(photo.id);
  const isMeasured = photo.status.kind === 'measured' && photo.reading !== null;
  useEffect(() => {
    if (isMeasured && !entry) bench.measure(photo.id, true);
  }, [photo.id, isMeasured, entry]);
  if (!entry || !isMeasured) {
    const { status } = photo;
    return (
      <>
        <main class="well next">
          <h1 class="hidden-text">Next change for {photo.name}</h1>
          <div class="no-map tall" role="status">
            <span>
              {status.kind === 'failed' ? `${status.error.message} ${status.error.remedy}` : 'The photo is being measured.'}
            </span>
          </div>
        </main>
        <aside class="side" aria-label="Forecast" />
      </>
    ); // prettier-ignore
  }
  return <Advice key={photo.id} photo={photo} entry={entry} />;
}

interface AdviceProps {
  readonly photo: PhotoOnBench;
  readonly entry: MappedWindow;
}

const nothingTried = missing('move a slider: the forecast stands here');

function Advice({ photo, entry }: AdviceProps): JSX.Element {
  const bench = useBench();
  const { plans, filings } = useBook();
  const [tool, setTool] = useState<Tool>('lamp');
  const [move, setMove] = useState<Move | null>(null);
  const [tried, setTried] = useState<Tried | null>(null);
  const told = useMemo(() => advisedWindow(entry), [entry]);
  const advice = useAdvice('window', told, entry);
  // What the tools ask is about the window that the worker was told of.
  const isTold = advice.answer !== null;
  const { photos } = bench.state.value;
  const reading = entry.reading;
  const ofWindow = photos.filter(
    (other): other is MeasuredPhotoOnBench => other.reading !== null && showSameWindow(other.reading, reading),
  );
  const roleOf = (other: PhotoOnBench): PhotoRole => filings.of(other.id)?.role ?? proposedRole(other, photos);
  // The filament photo is its own target.
  const named = bench.photo(photo.settings.reference) ?? (roleOf(photo) === 'reference' ? photo : null);
  const reference = named && hasReading(named) ? named : null;
  const open = (next: Tool, asked: Move | null = null): void => {
    if (next === tool && asked === null) return;
    if (next !== tool) setTried(null);
    setMove(asked);
    setTool(next);
  };
  const plan = (): void => {
    if (!tried) return;
    const { what, evenness } = tried;
    plans.put({
      id: crypto.randomUUID(),
      photo: photo.id,
      photoName: photo.name,
      what,
      evenness,
      after: ofWindow[0].id,
      filedIn: null,
    });
    bench.say(`Planned: ${what}`);
  };
  const score = reading.evenness.score;
  return (
    <>
      <main class="well next">
        <h1>What to change next</h1>
        <SuggestionList advice={advice.answer} refusal={advice.refusal} onTry={open} />
        <section class="try" aria-label="Try it before you change it">
          <h2>Try it before you change it</h2>
          {!reading.outline.sizeKnown && (
            <p class="gate" data-size-assumed>
              <Glyph kind="warn" />
              <span>
                {assumedSizeCaution}{' '}
                <button class="plain" onClick={() => bench.goTo('outline')}>
                  Give its size
                </button>
              </span>
            </p>
          )}
          <div class="choice" role="group" aria-label="What to try">
            {tools.map((name) => (
              <button key={name} aria-pressed={name === tool} onClick={() => open(name)} data-tool={name}>
                {toolWords[name]}
              </button>
            ))}
          </div>
          <div class="try-body">
            {!isTold && !advice.refusal && <p class="hint">The light is being looked at.</p>}
            {isTold && tool === 'lamp' && <MoveLamp entry={entry} start={move} onTried={setTried} />}
            {isTold && tool === 'shade' && <ShadeTool photo={photo} entry={entry} onTried={setTried} />}
          </div>
          <p class="hint">
            Lamps that were photographed one at a time are added up on station{' '}
            <button class="plain" onClick={() => bench.goTo('compare')}>
              Compare
            </button>
            , without a model of any lamp.
          </p>
          <ForecastMaps entry={entry} forecast={tried?.forecast ?? null} />
        </section>
        <LampMix photo={photo} reference={reference} photos={ofWindow} roleOf={roleOf} />
      </main>
      <aside class="side" aria-label="Forecast">
        <LeadingFigure
          name="Evenness, forecast"
          unit="0–100, not a photo"
          figure={tried?.evenness ?? nothingTried}
          axis={evennessAxis}
          words={tried ? gainWords(score.value, tried) : ''}
          isWaiting={false}
          under={
            <div class="under">
              <span>now {score.value === null ? 'no figure' : score.value.toFixed(0)}</span>
              <span role="status">{tried?.isBehind ? 'following the sliders' : (tried?.what ?? '')}</span>
            </div>
          }
        />
        <button class="go" disabled={tried === null || tried.isBehind || tried.evenness.value === null} onClick={plan} data-plan-it>
          Keep as planned trial
        </button>
        <PlanList photos={ofWindow} roleOf={roleOf} />
        <Families />
      </aside>
    </>
  ); // prettier-ignore
}

/** What the forecast gains, with its doubt: it may be too little to be seen. */
function gainWords(now: number | null, { evenness }: Tried): string {
  if (now === null || evenness.value === null || evenness.plusMinus === null) return '';
  const gain = evenness.value - now;
  if (Math.abs(gain) <= evenness.plusMinus) return 'may not be seen as a change';
  return gain > 0 ? 'more even' : 'less even';
}
