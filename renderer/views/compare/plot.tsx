import type { ComponentChildren, JSX } from 'preact';
import { axisTicks } from '../../../core/display/axis-ticks';

export interface PlotAxis {
  readonly from: number;
  readonly to: number;
  readonly label: string;
  /** Values stand on a logarithmic axis. */
  readonly isLog?: boolean;
  /** Marks where round values do not serve. */
  readonly ticks?: readonly number[];
  readonly textOf?: (value: number) => string;
}

/** From the values of a plot to its own drawing units. */
export interface PlotScale {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
}

const size = { width: 760, height: 420, left: 64, right: 16, top: 14, bottom: 46 } as const;

function scaleOf({ from, to, isLog = false }: PlotAxis, start: number, end: number): (value: number) => number {
  const place = isLog ? Math.log : (value: number): number => value;
  return (value) => start + ((place(value) - place(from)) / (place(to) - place(from))) * (end - start);
}

interface PlotProps {
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  /** Said to who cannot see the drawing. */
  readonly label: string;
  readonly children: (scale: PlotScale) => ComponentChildren;
}

/** Two axes with their marks, and what is drawn between them. The drawing is cut at its frame. */
export function Plot({ x, y, label, children }: PlotProps): JSX.Element {
  const { width, height, left, right, top, bottom } = size;
  const scale = { x: scaleOf(x, left, width - right), y: scaleOf(y, height - bottom, top) };
  const [xTicks, yTicks] = [x.ticks ?? axisTicks(x.from, x.to, 9), y.ticks ?? axisTicks(y.from, y.to, 7)];
  const text = ({ textOf = String }: PlotAxis, value: number): string => textOf(value).replace('-', '\u2212');
  return (
    <svg class="plot" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      <clipPath id="plot-frame">
        <rect x={left} y={top} width={width - left - right} height={height - top - bottom} />
      </clipPath>
      {xTicks.map((tick) => (
        <g key={tick}>
          <path class="grid" d={`M${scale.x(tick)} ${top}V${height - bottom}`} />
          <text x={scale.x(tick)} y={height - bottom + 18} text-anchor="middle">
            {text(x, tick)}
          </text>
        </g>
      ))}
      {yTicks.map((tick) => (
        <g key={tick}>
          <path class="grid" d={`M${left} ${scale.y(tick)}H${width - right}`} />
          <text x={left - 8} y={scale.y(tick) + 4} text-anchor="end">
            {text(y, tick)}
          </text>
        </g>
      ))}
      <text class="axis-name" x={width - right} y={height - 8} text-anchor="end">
        {x.label}
      </text>
      <text class="axis-name" transform={`translate(14 ${top}) rotate(-90)`} text-anchor="end">
        {y.label}
      </text>
      <g clip-path="url(#plot-frame)">{children(scale)}</g>
    </svg>
  );
}

export type MarkKind = 'this' | 'other' | 'reference' | 'rest';

/** A photo's mark: the one in view full, the one it is compared with a ring, the reference a square, all others small. */
export function PlotMark({
  kind,
  x,
  y,
}: {
  readonly kind: MarkKind;
  readonly x: number;
  readonly y: number;
}): JSX.Element {
  if (kind === 'reference') return <rect class="mark reference" x={x - 5} y={y - 5} width="10" height="10" />;
  return <circle class={`mark ${kind}`} cx={x} cy={y} r={kind === 'rest' ? 3.5 : 6} />;
}

/** What the marks and lines of a plot stand for. */
export function PlotKey({ entries }: { readonly entries: readonly (readonly [MarkKind, string])[] }): JSX.Element {
  return (
    <ul class="plot-key">
      {entries.map(([kind, name]) => (
        <li key={`${kind} ${name}`}>
          <svg viewBox="0 0 34 16" aria-hidden="true">
            <path class={`line ${kind}`} d="M1 8H33" />
            <PlotMark kind={kind} x={17} y={8} />
          </svg>
          {name}
        </li>
      ))}
    </ul>
  );
}
