import type { JSX } from 'preact';
import type { Reading } from '../../../core/contract/readings';
import { figureText } from '../../../core/display/figure-text';
import { pointText } from '../../../core/display/point-text';
import { spotsNote, spotRatioText, spotSizeText } from '../../../core/display/spot-text';

function PlaceCell({ value, doubt }: { readonly value: number; readonly doubt: number }): JSX.Element {
  const text = figureText(value, doubt);
  return (
    <td class="number">
      <b>{text.value}</b> ± {text.plusMinus}
    </td>
  );
}

/** The numbered spots as a table: the maps' twin for who cannot see them. */
export function SpotTable({ reading }: { readonly reading: Reading }): JSX.Element {
  if (reading.spotsReason !== undefined) return <p class="hint">No spots listed: {reading.spotsReason}.</p>;
  if (reading.spots.length === 0) return <p>No hot or dark spot stands out.</p>;
  return (
    <div>
      <table>
        <thead>
          <tr>
            <th>Spot</th>
            <th class="number">x mm</th>
            <th class="number">y mm</th>
            <th class="number">size mm</th>
            <th class="number">× glow</th>
            <th>lamp side</th>
          </tr>
        </thead>
        <tbody>
          {reading.spots.map((spot, i) => (
            <tr key={`${spot.kind}${spot.xMm}`}>
              <td>
                <span class={`spot-mark inline ${spot.kind}`}>{i + 1}</span> {spot.kind}
              </td>
              <PlaceCell value={spot.xMm} doubt={spot.plusMinusMm} />
              <PlaceCell value={spot.yMm} doubt={spot.plusMinusMm} />
              <td class="number">{spotSizeText(spot)}</td>
              <td class="number">{spotRatioText(spot)}</td>
              <td>{spot.lampSide ?? '–'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="hint">{spotsNote}</p>
    </div>
  );
}

const places = ['top left', 'top', 'top right', 'left', 'middle', 'right', 'bottom left', 'bottom', 'bottom right'];

/** Nine points in per cent of the brightest; the brightest framed, the darkest dashed. */
export function NinePoints({ reading }: { readonly reading: Reading }): JSX.Element {
  const { values, plusMinus, minOverMax } = reading.evenness.ninePoint;
  if (values === null) return <p class="hint">No nine points: {minOverMax.reason}.</p>;
  const known = values.filter((value) => value !== null);
  return (
    <figure>
      <figcaption class="hint">Nine points, % of the brightest</figcaption>
      <div class="nine">
        {values.map((value, i) => {
          const mark = value === Math.max(...known) ? 'highest' : value === Math.min(...known) ? 'lowest' : '';
          return (
            <span key={places[i]} class={mark}>
              <span class="hidden-text">{places[i]} </span>
              {value === null ? 'no glow' : pointText(value, plusMinus?.[i] ?? 0)}
            </span>
          );
        })}
      </div>
    </figure>
  );
}
