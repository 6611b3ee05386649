import type { JSX } from 'preact';
import type { Comparison, RankedFigure } from '../../../core/contract/comparison';
import type { Figure } from '../../../core/contract/figure';
import type { Reading } from '../../../core/contract/readings';
import { useBench } from '../bench-context';
import { CutName } from './cut-name';
import { colourAxis, evennessAxis, FigureBar, PlusMinus, redPrintAxis, type Axis } from '../figure-view';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';

interface Ranked {
  readonly name: string;
  readonly unit: string;
  readonly axis: Axis;
  readonly scale: number;
  readonly of: (reading: Reading) => Figure;
}

const ranked: Readonly<Record<RankedFigure, Ranked>> = {
  evenness: { name: 'Evenness', unit: 'of 100', axis: evennessAxis, scale: 1, of: ({ evenness }) => evenness.score },
  redPrint: {
    name: 'Red print',
    unit: '% of filament',
    axis: redPrintAxis,
    scale: 1,
    of: ({ redPrint }) => redPrint.index,
  },
  colour: {
    name: 'Colour distance',
    unit: '10⁻³ u′v′',
    axis: colourAxis,
    scale: 1000,
    of: ({ colour }) => colour.toReferenceUv,
  },
};

const scaled = ({ value, plusMinus, ...rest }: Figure, scale: number): Figure => ({
  ...rest,
  value: value === null ? null : value * scale,
  plusMinus: plusMinus === null ? null : plusMinus * scale,
});

interface RankingProps {
  readonly figure: RankedFigure;
  readonly comparison: Comparison;
  readonly photos: readonly MeasuredPhotoOnBench[];
  readonly inView: string;
}

/** All photos by one figure; those that cannot be told apart share one place and one brace, their order means nothing. */
function RankedList({ figure, comparison, photos, inView }: RankingProps): JSX.Element {
  const bench = useBench();
  const { name, unit, axis, scale, of } = ranked[figure];
  const groups = comparison.ranking[figure];
  const notRanked = comparison.ranking.notRanked[figure];
  const photoOf = (id: string): MeasuredPhotoOnBench | undefined => photos.find((photo) => photo.id === id);
  let place = 1;
  return (
    <section class="leading" aria-label={`Photos by ${name.toLowerCase()}`} data-ranking={figure}>
      <div class="head">
        <h3>{name}</h3>
        <small>{unit}</small>
      </div>
      <ol class="ranking">
        {groups.map((group) => {
          const first = place;
          place += group.length;
          const places = group.length === 1 ? String(first) : `${first}–${place - 1}`;
          return (
            <li key={group[0]} class={group.length > 1 ? 'together' : ''}>
              <span class="place" title={group.length > 1 ? 'cannot be told apart' : undefined}>
                {places}
              </span>
              <ul>
                {group.map((id) => {
                  const photo = photoOf(id);
                  if (!photo) return null;
                  const shown = scaled(of(photo.reading), scale);
                  return (
                    <li key={id}>
                      <button
                        class="plain"
                        aria-current={id === inView ? 'true' : undefined}
                        title={photo.name}
                        onClick={() => bench.select(id)}
                      >
                        <CutName name={photo.name} />
                      </button>
                      <PlusMinus figure={shown} />
                      <FigureBar figure={shown} axis={axis} />
                    </li>
                  );
                })}
              </ul>
            </li>
          );
        })}
      </ol>
      {groups.length === 0 && <p class="hint">No photo has this figure: {notRanked[0]?.reason ?? 'not measured'}.</p>}
      {groups.length > 0 && notRanked.length > 0 && (
        <details>
          <summary>{notRanked.length} without this figure</summary>
          <ul class="hint">
            {notRanked.map(({ name: id, reason }) => (
              <li key={id}>
                {photoOf(id)?.name ?? id}: {reason}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** The photos of one window in order, by each leading figure. */
export function Rankings(props: Omit<RankingProps, 'figure'>): JSX.Element {
  return (
    <>
      {(Object.keys(ranked) as RankedFigure[]).map((figure) => (
        <RankedList key={figure} figure={figure} {...props} />
      ))}
    </>
  );
}
