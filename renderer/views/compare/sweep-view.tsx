import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { RankedGroups } from '../../../core/contract/comparison';
import type { PhotoId } from '../../../core/contract/bench';
import { axisRange } from '../../../core/display/axis-ticks';
import { CutName } from './cut-name';
import { kindOf, type ComparedPhotos } from './compared-photos';
import { Plot, PlotMark } from './plot';
import { placesOf } from './sweep-places';

const inWords = (places: readonly number[]): string =>
  `${places.slice(0, -1).join(', ')} and ${places[places.length - 1]}`;

interface SweepProps extends ComparedPhotos {
  /** By evenness; null: not there yet. */
  readonly groups: RankedGroups | null;
}

/** Evenness against where one lamp sat, tries that differ in nothing else. */
export function SweepView(given: SweepProps): JSX.Element {
  const { photos, reference, groups } = given;
  const trials = photos.filter(({ id }) => id !== reference);
  const [lamp, setLamp] = useState('Left lamp');
  const [written, setWritten] = useState<Readonly<Record<PhotoId, number | null>>>({});
  const places = placesOf(trials, written);
  const points = trials.flatMap((photo) => {
    const { value, plusMinus } = photo.reading.evenness.score;
    const place = places.get(photo.id);
    return place === undefined || value === null || plusMinus === null ? [] : [{ photo, place, value, plusMinus }];
  });
  points.sort((a, b) => a.place - b.place);
  const best = groups?.[0] ?? [];
  const inBest = points.filter(({ photo }) => best.includes(photo.id));
  const sentence =
    inBest.length === 0
      ? ''
      : inBest.length === 1
        ? `Most even at ${inBest[0].place} mm.`
        : `Most even at ${inWords(inBest.map(({ place }) => place))} mm: these cannot be told apart.`;
  const mm = axisRange(points.map(({ place }) => ({ value: place, plusMinus: 0 })), 4); // prettier-ignore
  const score = axisRange(points, 20);
  return (
    <>
      {points.length < 2 ? (
        <div class="no-map tall">
          <span>
            Write where the lamp sat in two photos or more; names such as “left 16 mm.jpg” are read by themselves.
          </span>
        </div>
      ) : (
        <>
          <h2>{sentence}</h2>
          <Plot
            x={{ from: mm[0], to: mm[1], label: `${lamp}, mm` }}
            y={{ from: Math.max(0, score[0]), to: Math.min(100, score[1]), label: 'evenness, of 100' }}
            label={`Evenness against the place of ${lamp}: ${points.map(({ place, value, plusMinus }) => `${place} mm ${value.toFixed(0)} plus minus ${plusMinus.toFixed(0)}`).join('; ')}`}
          >
            {(scale) => (
              <>
                <path
                  class="line other"
                  d={`M${points.map(({ place, value }) => `${scale.x(place)} ${scale.y(value)}`).join('L')}`}
                />
                {points.map(({ photo, place, value, plusMinus }) => (
                  <g key={photo.id}>
                    <path
                      class="whisker"
                      d={`M${scale.x(place)} ${scale.y(value - plusMinus)}V${scale.y(value + plusMinus)}m-6 0h12M${scale.x(place) - 6} ${scale.y(value - plusMinus)}h12`}
                    />
                    <PlotMark kind={kindOf(photo.id, given)} x={scale.x(place)} y={scale.y(value)} />
                  </g>
                ))}
              </>
            )}
          </Plot>
          <p class="plot-note">
            Bars are plus-minus 95 % of each photo by itself. Change nothing else between these photos: with two things
            changed at once, neither can be blamed.
          </p>
        </>
      )}
      <table class="lamp-ratios">
        <thead>
          <tr>
            <th>
              <label class="field">
                Lamp
                <input value={lamp} maxLength={40} onInput={(event) => setLamp(event.currentTarget.value)} />
              </label>
            </th>
            <th>sat at, mm</th>
          </tr>
        </thead>
        <tbody>
          {trials.map(({ id, name }) => (
            <tr key={id}>
              <th scope="row">
                <CutName name={name} />
              </th>
              <td>
                <input
                  type="number"
                  step={0.5}
                  min={-500}
                  max={500}
                  value={places.get(id) ?? ''}
                  aria-label={`Place of ${lamp} in ${name}, mm`}
                  data-place-of={name}
                  onInput={(event) => {
                    const text = event.currentTarget.value;
                    setWritten({ ...written, [id]: text === '' ? null : Number(text) });
                  }}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
