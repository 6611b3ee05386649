import type { JSX } from 'preact';
import type { Figure } from '../../core/contract/figure';
import { figureText } from '../../core/display/figure-text';

/** Value and plus-minus on their spine, or a hatched slot with the reason in its title. */
export function PlusMinus({ figure, scale = 1 }: { readonly figure: Figure; readonly scale?: number }): JSX.Element {
  if (figure.value === null || figure.plusMinus === null) {
    return (
      <span class="plus-minus" title={figure.reason}>
        <span class="value">
          <i class="no-figure" />
          <span class="hidden-text">no figure: {figure.reason}</span>
        </span>
      </span>
    );
  }
  const { value, plusMinus } = figureText(figure.value * scale, figure.plusMinus * scale);
  // The reference beside itself: so by definition, not measured.
  if (figure.plusMinus === 0) {
    return (
      <span class="plus-minus" title="by definition">
        <span class="value">{value}</span>
      </span>
    );
  }
  return (
    <span class="plus-minus">
      <span class="value">{value.replace('-', '−')}</span>
      <span class="sign" aria-label="plus minus">
        ±
      </span>
      <span class="doubt">{plusMinus}</span>
    </span>
  );
}

export interface Axis {
  readonly from: number;
  readonly to: number;
  /** Where the words change. */
  readonly ticks: readonly number[];
}

/** Evenness: right is better. */
export const evennessAxis: Axis = { from: 0, to: 100, ticks: [50, 65, 80, 95] };
export const redPrintAxis: Axis = { from: 0, to: 125, ticks: [20, 45, 75, 100] };
/** Distances in 0.001 u'v' run backwards, so that right is better here too. */
export const colourAxis: Axis = { from: 60, to: 0, ticks: [40, 20, 5.5] };

/** Where a value lies on an axis, 0..1, kept on it. */
export function shareOnAxis(value: number, { from, to }: Axis): number {
  return Math.min(1, Math.max(0, (value - from) / (to - from)));
}

const percent = (share: number): string => `${(100 * share).toFixed(2)}%`;

function bandOf(value: number, doubt: number, axis: Axis): { left: string; width: string } {
  const ends = [shareOnAxis(value - doubt, axis), shareOnAxis(value + doubt, axis)].sort((a, b) => a - b);
  return { left: percent(ends[0]), width: percent(ends[1] - ends[0]) };
}

/** A small bar of value and plus-minus for the stack. */
export function FigureBar({ figure, axis }: { readonly figure: Figure; readonly axis: Axis }): JSX.Element {
  if (figure.value === null || figure.plusMinus === null) return <span class="bar" aria-hidden="true" />;
  return (
    <span class="bar" aria-hidden="true">
      <i style={bandOf(figure.value, figure.plusMinus, axis)} />
      <b style={{ left: percent(shareOnAxis(figure.value, axis)) }} />
    </span>
  );
}

interface LeadingFigureProps {
  readonly name: string;
  readonly unit: string;
  readonly figure: Figure;
  readonly scale?: number;
  readonly axis: Axis | null;
  readonly words: string;
  readonly under?: JSX.Element | null;
  /** The photo is being measured: the slot waits. */
  readonly isWaiting: boolean;
}

/** One of the three leading figures: large value, plus-minus, a word of judgement, its axis. A refused one keeps its place. */
export function LeadingFigure(props: LeadingFigureProps): JSX.Element {
  const { name, unit, figure, scale = 1, axis, words, under, isWaiting } = props;
  const head = (
    <div class="head">
      <h3>{name}</h3>
      <small>{unit}</small>
    </div>
  );
  if (isWaiting || figure.value === null || figure.plusMinus === null) {
    return (
      <section class="leading" aria-label={name} data-figure={name}>
        {head}
        <div class={`slot ${isWaiting ? 'waiting' : ''}`}>
          <span>{isWaiting ? 'is being measured' : figure.reason}</span>
        </div>
        {under}
      </section>
    );
  }
  const value = figure.value * scale;
  const doubt = figure.plusMinus * scale;
  const text = figureText(value, doubt);
  return (
    <section class="leading" aria-label={name} data-figure={name}>
      {head}
      <div class="body">
        <div class="large">
          <span class="value">{text.value.replace('-', '−')}</span>
          <span class="sign" aria-label="plus minus">
            ±
          </span>
          <span class="doubt">{text.plusMinus}</span>
        </div>
        <span class="word">{words}</span>
      </div>
      {axis && (
        <div class="axis" aria-hidden="true">
          <span class="rail" />
          {[axis.from, ...axis.ticks, axis.to].map((tick) => (
            <span key={tick} class="tick" style={{ left: percent(shareOnAxis(tick, axis)) }} />
          ))}
          <span class="band" style={bandOf(value, doubt, axis)} />
          <span class="point" style={{ left: percent(shareOnAxis(value, axis)) }} />
        </div>
      )}
      {under}
    </section>
  );
}
