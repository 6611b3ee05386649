import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { MappedWindow } from '../../../core/contract/measure';
import type { FittedLamp, WhichLamp } from '../../../core/contract/place-advice';
import { useBook } from '../book-context';
import { Refused } from './refused';
import { Slider } from './slider';
import type { Tried } from './tools';
import { useAdvice } from './use-advice';

export interface Move {
  readonly lamp: WhichLamp;
  readonly byMm: readonly [number, number, number];
  readonly tiltDeg: readonly [number, number];
}

const still = (lamp: WhichLamp): Move => ({ lamp, byMm: [0, 0, 0], tiltDeg: [0, 0] });
const isStill = ({ byMm, tiltDeg }: Move): boolean => [...byMm, ...tiltDeg].every((value) => value === 0);

/** A move in words, as the plan keeps it. */
export function moveWords({ lamp, byMm: [right, down, away], tiltDeg: [turnRight, turnDown] }: Move): string {
  const part = (value: number, unit: string, more: string, less: string): string =>
    value === 0 ? '' : `${Math.abs(value).toFixed(1).replace('.0', '')} ${unit} ${value > 0 ? more : less}`;
  const parts = [
    part(right, 'mm', 'to the right', 'to the left'),
    part(down, 'mm', 'down', 'up'),
    part(away, 'mm', 'back', 'nearer'),
    part(turnRight, '°', 'turned right', 'turned left'),
    part(turnDown, '°', 'turned down', 'turned up'),
  ].filter((text) => text !== '');
  return `${lamp === 'all' ? 'all lamps' : `lamp ${lamp}`}: ${parts.join(', ')}`;
}

/** Where lamps fit is for the user to say; these are the window and what usually is behind it. */
const leastDepthMm = 4;
const mostDepthMm = 30;

interface MoveLampProps {
  readonly entry: MappedWindow;
  /** What a suggestion asks to be tried; null: nothing yet. */
  readonly start: Move | null;
  readonly onTried: (tried: Tried | null) => void;
}

/** Sliders for one lamp of the fitted model or for all; the forecast follows them. */
export function MoveLamp({ entry, start, onTried }: MoveLampProps): JSX.Element {
  const { advice } = useBook();
  const found = useAdvice('lamps', {}, entry);
  const [move, setMove] = useState<Move>(start ?? still(1));
  const [isSearching, setIsSearching] = useState(false);
  useEffect(() => setMove(start ?? still(1)), [entry, start]);
  const isAsked = found.answer !== null && !isStill(move);
  const forecast = useAdvice('move', isAsked ? move : null, entry);
  useEffect(() => {
    const { answer } = forecast;
    const what = moveWords(move);
    onTried(answer && isAsked ? { forecast: answer, evenness: answer.evenness, what, isBehind: forecast.isBehind } : null); // prettier-ignore
  }, [forecast.answer, forecast.isBehind, isAsked]);

  if (found.refusal) return <Refused refusal={found.refusal} />;
  if (found.answer === null) {
    return (
      <p class="hint" role="status">
        The lamps are being looked for in the light.
      </p>
    );
  }
  const { lamps, rmsPercent } = found.answer;
  const moved = move.lamp === 'all' ? lamps : lamps.slice(move.lamp - 1, move.lamp);
  const { widthMm, heightMm } = entry.maps;
  const axis = (index: 0 | 1 | 2, value: number): void =>
    setMove({ ...move, byMm: [0, 1, 2].map((i) => (i === index ? value : move.byMm[i])) as unknown as Move['byMm'] });
  const turn = (index: 0 | 1, value: number): void =>
    setMove({ ...move, tiltDeg: index === 0 ? [value, move.tiltDeg[1]] : [move.tiltDeg[0], value] });
  const search = async (): Promise<void> => {
    setIsSearching(true);
    const x = move.lamp === 'all' ? ([0, widthMm] as const) : partOf(lamps, move.lamp, widthMm);
    const limits = { x, y: [0, heightMm], z: [leastDepthMm, mostDepthMm] } as const; // prettier-ignore
    const told = await advice.ask('bestPlace', { lamp: move.lamp, limits });
    setIsSearching(false);
    if (!told || !('answer' in told)) return;
    const [right, down, away] = told.answer.byMm.map((mm) => Math.round(2 * mm) / 2);
    setMove({ ...move, byMm: [right, down, away], tiltDeg: [0, 0] });
  };
  return (
    <>
      <p class="hint">
        {lamps.length === 1 ? 'One lamp is' : 'Two lamps are'} seen in the light; the model misses it by{' '}
        {rmsPercent.toFixed(1)} %. {lamps.map(placeWords).join(' ')}
      </p>
      {lamps.length > 1 && (
        <div class="choice" role="group" aria-label="Which lamp">
          {lamps.map(({ number }) => (
            <button key={number} aria-pressed={number === move.lamp} onClick={() => setMove(still(number as WhichLamp))}>
              Lamp {number}
            </button>
          ))}
          <button aria-pressed={move.lamp === 'all'} onClick={() => setMove(still('all'))} data-all-lamps>
            All, the same way
          </button>
        </div>
      )}
      <div class="try-sliders">
        <Slider label="Left, right" unit="mm" value={move.byMm[0]} {...around(moved, 0, 0, widthMm)} step={0.5} onChange={(mm) => axis(0, mm)} />
        <Slider label="Up, down" unit="mm" value={move.byMm[1]} {...around(moved, 1, 0, heightMm)} step={0.5} onChange={(mm) => axis(1, mm)} />
        <Slider label="Nearer, back" unit="mm" value={move.byMm[2]} {...around(moved, 2, leastDepthMm, mostDepthMm)} step={0.5} onChange={(mm) => axis(2, mm)} />
        <Slider label="Turned left, right" unit="°" value={move.tiltDeg[0]} from={-60} to={60} step={5} digits={0} onChange={(deg) => turn(0, deg)} />
        <Slider label="Turned up, down" unit="°" value={move.tiltDeg[1]} from={-60} to={60} step={5} digits={0} onChange={(deg) => turn(1, deg)} />
      </div>
      <p class="row">
        <button disabled={isSearching} onClick={() => void search()} data-best-place>
          {isSearching ? 'Searching' : 'Find the best place'}
        </button>
        <button class="plain" onClick={() => setMove(still(move.lamp))}>
          Back to where it is
        </button>
        <span class="hint">
          within {move.lamp === 'all' ? 'the window' : 'its part of the window'}, {leastDepthMm} to {mostDepthMm} mm behind it
        </span>
      </p>
    </>
  ); // prettier-ignore
}

function placeWords({ number, positionMm: [x, y, z], plusMinusMm }: FittedLamp): string {
  return `Lamp ${number} at ${x.toFixed(0)}, ${y.toFixed(0)} mm, ${z.toFixed(0)} ± ${Math.ceil(plusMinusMm[2])} mm behind.`;
}

/** A lamp keeps to its own part of the window: one beside the other would leave its part dark. */
function partOf(lamps: readonly FittedLamp[], number: number, widthMm: number): readonly [number, number] {
  const xs = lamps.map(({ positionMm }) => positionMm[0]);
  const [before, own, after] = [xs[number - 2], xs[number - 1], xs[number]];
  return [before === undefined ? 0 : (before + own) / 2, after === undefined ? widthMm : (own + after) / 2];
}

/** How far lamps may be moved along an axis, in steps of half a mm, within where each may be. */
function around(
  lamps: readonly FittedLamp[],
  axis: 0 | 1 | 2,
  least: number,
  most: number,
): { readonly from: number; readonly to: number } {
  const half = (mm: number): number => Math.round(2 * mm) / 2;
  const places = lamps.map(({ positionMm }) => positionMm[axis]);
  return {
    from: Math.min(0, half(least - Math.min(...places))),
    to: Math.max(0, half(most - Math.max(...places))),
  };
}
