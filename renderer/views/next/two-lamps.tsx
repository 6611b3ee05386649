import type { JSX } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { PhotoId } from '../../../core/contract/bench';
import type { MappedWindow } from '../../../core/contract/measure';
import { useBench } from '../bench-context';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import { PlusMinus } from '../figure-view';
import { Refused } from './refused';
import { Slider } from './slider';
import type { Tried } from './tools';
import { advisedWindow, useAdvice } from './use-advice';

interface TwoLampsProps {
  readonly entry: MappedWindow;
  /** Other photos of this window. */
  readonly others: readonly MeasuredPhotoOnBench[];
  readonly onTried: (tried: Tried | null) => void;
}

/** Two photos, each with one lamp lit alone: what both give at any ratio of their currents. */
export function TwoLamps({ entry, others, onTried }: TwoLampsProps): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const [chosen, setChosen] = useState<PhotoId | null>(null);
  // Steps of a quarter of a doubling: ratios are felt by their logarithm.
  const [quarters, setQuarters] = useState(0);
  const other = others.find(({ id }) => id === chosen) ?? null;
  const otherEntry = other ? bench.mapsOf(other.id) : undefined;
  const isMissing = other !== null && otherEntry === undefined;
  useEffect(() => {
    if (isMissing) bench.measure(other.id, true);
  }, [other?.id, isMissing]);
  const ratio = 2 ** (quarters / 4);
  const asks = useMemo(() => (otherEntry ? { other: advisedWindow(otherEntry), ratio } : null), [otherEntry, ratio]);
  const { answer, refusal, isBehind } = useAdvice('currents', asks, entry);
  useEffect(() => {
    const what = `both lamps lit, ${other?.name ?? ''} at ${ratio.toFixed(2)} of its current`;
    onTried(answer ? { forecast: answer, evenness: answer.evenness, what, isBehind } : null);
  }, [answer, isBehind]);
  return (
    <>
      <p class="hint">
        Light adds up: this photo with one lamp lit alone, and another with the other lamp, from a tripod and with the
        same exposure.
      </p>
      <label class="field">
        The other lamp alone
        <select value={other?.id ?? ''} onChange={(event) => setChosen(event.currentTarget.value)} data-other-lamp>
          <option value="">choose a photo</option>
          {others.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {others.length === 0 && <p class="hint">There is no other photo of this window on the bench.</p>}
      {other && (
        <div class="try-sliders">
          <Slider
            label={`Current of the lamp of ${other.name}`}
            unit="×"
            value={quarters}
            from={-12}
            to={12}
            step={1}
            shown={`× ${ratio.toFixed(2)}`}
            onChange={setQuarters}
          />
        </div>
      )}
      {refusal && <Refused refusal={refusal} />}
      {answer && (
        <p class="row">
          <span>
            Best at × <PlusMinus figure={answer.best} />: evenness <PlusMinus figure={answer.bestEvenness} />
          </span>
          <button onClick={() => setQuarters(Math.round(4 * Math.log2(answer.best.value ?? 1)))}>Set it</button>
        </p>
      )}
    </>
  );
}
