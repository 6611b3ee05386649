import type { JSX } from 'preact';
import { markedK, planckianLocus, type LocusMark } from '../../../core/advice/planckian-locus';
import { axisRange } from '../../../core/display/axis-ticks';
import type { MeasuredPhotoOnBench } from '../../state/bench-state';
import { kindOf, keyOf, type ComparedPhotos } from './compared-photos';
import { Plot, PlotKey, PlotMark } from './plot';

/** Made when a chart is first looked at. */
let locus: readonly LocusMark[] | null = null;

interface Placed {
  readonly photo: MeasuredPhotoOnBench;
  readonly u: { readonly value: number; readonly plusMinus: number };
  readonly v: { readonly value: number; readonly plusMinus: number };
}

function placedOf(photo: MeasuredPhotoOnBench): Placed | null {
  const { uPrime, vPrime } = photo.reading.colour;
  if (uPrime.value === null || uPrime.plusMinus === null || vPrime.value === null || vPrime.plusMinus === null)
    return null;
  return {
    photo,
    u: { value: uPrime.value, plusMinus: uPrime.plusMinus },
    v: { value: vPrime.value, plusMinus: vPrime.plusMinus },
  };
}

/** Trials and reference in the CIE 1976 chart, beside the light of filaments and other glowing bodies. */
export function ColourView(given: ComparedPhotos): JSX.Element {
  locus ??= planckianLocus();
  // The photo in view is drawn last, over the others.
  const rankOf = ({ photo }: Placed): number => (photo.id === given.photo.id ? 1 : 0);
  const placed = given.photos
    .map(placedOf)
    .filter((one) => one !== null)
    .sort((a, b) => rankOf(a) - rankOf(b));
  const without = given.photos.filter((photo) => !placed.some((one) => one.photo.id === photo.id));
  if (placed.length === 0) {
    const reason = given.photo.reading.colour.uPrime.reason ?? 'not measured';
    return (
      <div class="no-map tall">
        <span>No photo of this window has a colour: {reason}.</span>
      </div>
    );
  }
  // One chart unit is as long either way, or distances would mislead.
  const [u, v] = [axisRange(placed.map((one) => one.u), 0.03), axisRange(placed.map((one) => one.v), 0.015)]; // prettier-ignore
  const shape = 680 / 360;
  const height = Math.max(v[1] - v[0], (u[1] - u[0]) / shape);
  const about = ([from, to]: readonly [number, number], length: number) => {
    const middle = (from + to) / 2;
    return { from: middle - length / 2, to: middle + length / 2 };
  };
  const digits = (value: number): string => value.toFixed(3);
  return (
    <>
      <Plot
        x={{ ...about(u, height * shape), label: 'u′', textOf: digits }}
        y={{ ...about(v, height), label: 'v′', textOf: digits }}
        label={`Colours of ${placed.length} photos in u′ and v′, with their plus-minus and the Planckian locus`}
      >
        {(scale) => (
          <>
            <path class="locus" d={`M${locus!.map((at) => `${scale.x(at.uPrime)} ${scale.y(at.vPrime)}`).join('L')}`} />
            {locus!
              .filter(({ temperatureK }) => (markedK as readonly number[]).includes(temperatureK))
              .map(({ temperatureK, uPrime, vPrime }) => (
                <g key={temperatureK}>
                  <path class="locus" d={`M${scale.x(uPrime)} ${scale.y(vPrime) - 5}v10`} />
                  <text x={scale.x(uPrime) + 5} y={scale.y(vPrime) - 8}>
                    {temperatureK} K
                  </text>
                </g>
              ))}
            {placed.map(({ photo, u: ofU, v: ofV }) => (
              <ellipse
                key={photo.id}
                class={`doubt ${kindOf(photo.id, given)}`}
                cx={scale.x(ofU.value)}
                cy={scale.y(ofV.value)}
                rx={Math.abs(scale.x(ofU.value + ofU.plusMinus) - scale.x(ofU.value))}
                ry={Math.abs(scale.y(ofV.value + ofV.plusMinus) - scale.y(ofV.value))}
              />
            ))}
            {placed.map(({ photo, u: ofU, v: ofV }) => (
              <PlotMark key={photo.id} kind={kindOf(photo.id, given)} x={scale.x(ofU.value)} y={scale.y(ofV.value)} />
            ))}
          </>
        )}
      </Plot>
      <PlotKey entries={keyOf(given)} />
      <p class="plot-note">
        Ellipses are plus-minus 95 %, each photo by itself. Photos taken alike share most of that: which colours can be
        told apart is said in the lists, not by whether ellipses meet. The line is the light of filaments and other
        glowing bodies.
        {without.length > 0 && ` Without a colour: ${without.map(({ name }) => name).join(', ')}.`}
      </p>
    </>
  );
}
