import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { medianOf } from '../../../core/base/stats';
import type { MappedWindow } from '../../../core/contract/measure';
import { profileAlong } from '../../../core/display/profile';
import { useBench } from '../bench-context';
import { kindOf, keyOf, type ComparedPhotos } from './compared-photos';
import { Plot, type MarkKind, type PlotScale } from './plot';
import { PlotKey } from './plot';

type Way = 'across' | 'down';

interface Curve {
  readonly kind: MarkKind;
  readonly points: readonly { readonly alongMm: number; readonly ratio: number | null }[];
}

function curveOf(kind: MarkKind, { maps }: MappedWindow, atMm: number, way: Way): Curve {
  const { glowLuminance } = maps;
  const level = medianOf(Array.from(glowLuminance.values).filter((value) => !Number.isNaN(value)));
  return { kind, points: profileAlong(glowLuminance, level, atMm, way) };
}

/** A line that is broken where there is no glow. */
function pathOf({ points }: Curve, scale: PlotScale): string {
  let pen = 'M';
  return points
    .map(({ alongMm, ratio }) => {
      if (ratio === null || ratio <= 0) {
        pen = 'M';
        return '';
      }
      const step = `${pen}${scale.x(alongMm).toFixed(1)} ${scale.y(ratio).toFixed(1)}`;
      pen = 'L';
      return step;
    })
    .join('');
}

const ticks = [0.1, 0.2, 0.33, 0.5, 0.7, 1, 1.4, 2, 3, 5, 10] as const;

/** Luminance along one line of the window, of two photos and the reference, each over the median of its own glow. */
export function ProfilesView(given: ComparedPhotos): JSX.Element {
  const { photo, other, reference, photos } = given;
  const bench = useBench();
  void bench.pictures.value;
  const { widthMm, heightMm } = photo.reading.outline;
  const [way, setWay] = useState<Way>(widthMm >= heightMm ? 'across' : 'down');
  const [breadth, length] = way === 'across' ? [heightMm, widthMm] : [widthMm, heightMm];
  const [share, setShare] = useState(0.5);
  const atMm = share * breadth;
  const filament = photos.find(({ id }) => id === reference);
  const shown = [filament, other, photo].filter((one) => one !== undefined && one !== null);
  const wanted = [...new Map(shown.map((one) => [one.id, one])).values()];
  const missing = wanted.filter(({ id }) => !bench.mapsOf(id));
  useEffect(() => {
    for (const { id } of missing) bench.measure(id, true);
  }, [missing.map(({ id }) => id).join(' ')]);
  const curves = wanted.flatMap(({ id }) => {
    const entry = bench.mapsOf(id);
    return entry ? [curveOf(kindOf(id, given), entry, atMm, way)] : [];
  });
  const ratios = curves.flatMap(({ points }) => points.flatMap(({ ratio }) => (ratio ? [ratio] : [])));
  const least = Math.min(0.5, ticks.filter((tick) => ratios.every((ratio) => ratio >= tick)).at(-1) ?? ticks[0]);
  const most = Math.max(2, ticks.find((tick) => ratios.every((ratio) => ratio <= tick)) ?? 10);
  const where = way === 'across' ? 'from the top' : 'from the left';
  return (
    <>
      <div class="row apart">
        <label class="slider one">
          <span>
            Line at {atMm.toFixed(1)} mm {where}
          </span>
          <input
            type="range"
            min={0}
            max={1}
            step={0.01}
            value={share}
            aria-label={`Where the line runs, ${where}`}
            onInput={(event) => setShare(Number(event.currentTarget.value))}
          />
        </label>
        <div class="choice" role="group" aria-label="Which way the line runs">
          {(['across', 'down'] as const).map((name) => (
            <button key={name} aria-pressed={way === name} onClick={() => setWay(name)}>
              {name === 'across' ? 'Left to right' : 'Top to bottom'}
            </button>
          ))}
        </div>
      </div>
      <Plot
        x={{ from: 0, to: length, label: 'mm' }}
        y={{
          from: least,
          to: most,
          label: '× median of its glow',
          isLog: true,
          ticks: ticks.filter((tick) => tick >= least && tick <= most),
        }}
        label={`Luminance along a line at ${atMm.toFixed(1)} mm ${where}, of ${wanted.map(({ name }) => name).join(', ')}`}
      >
        {(scale) => (
          <>
            <path class="level-one" d={`M${scale.x(0)} ${scale.y(1)}H${scale.x(length)}`} />
            {curves.map((curve) => (
              <path key={curve.kind} class={`line ${curve.kind}`} d={pathOf(curve, scale)} />
            ))}
          </>
        )}
      </Plot>
      <PlotKey entries={keyOf(given)} />
      {missing.length > 0 && (
        <p class="plot-note" role="status">
          The maps of {missing.map(({ name }) => name).join(', ')} are being made.
        </p>
      )}
      <p class="plot-note">
        Each over the median of its own glow: shape is compared here, not brightness. Means over 3 mm across the line.
      </p>
    </>
  );
}
