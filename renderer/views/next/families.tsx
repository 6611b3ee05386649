import type { JSX } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { useAdvice } from './use-advice';

/** What every kind of lamp would do to the red print, before it is bought. */
export function Families(): JSX.Element {
  const [isDyed, setIsDyed] = useState(false);
  const asks = useMemo(() => ({ isDyed, filamentK: 2400 }), [isDyed]);
  const { answer } = useAdvice('families', asks, null);
  const rows = answer ?? [];
  const end = Math.max(100, ...rows.map(({ high }) => high));
  return (
    <section aria-label="Red print with other lamps">
      <h3>What another lamp would do to the red print</h3>
      <label class="row">
        <input type="checkbox" checked={isDyed} onChange={(event) => setIsDyed(event.currentTarget.checked)} />
        behind a scale dyed amber
      </label>
      <table class="families">
        <thead>
          <tr>
            <th>Lamp</th>
            <th class="number">% of filament</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, index, low, high, words }) => (
            <tr key={name} title={words}>
              <td>
                {name}
                <span class="range" aria-hidden="true">
                  <i style={{ left: `${(100 * low) / end}%`, width: `${(100 * (high - low)) / end}%` }} />
                  <b style={{ left: `${(100 * index) / end}%` }} />
                  <u style={{ left: `${10_000 / end}%` }} />
                </span>
              </td>
              <td class="number">
                {low.toFixed(0)}–{high.toFixed(0)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="hint">
        Reckoned from model spectra, not measured. The upright line is the filament; the mark is the usual lamp of its kind.
        Two colours mixed are taken as tuned to a filament’s colour.
      </p>
    </section>
  ); // prettier-ignore
}
