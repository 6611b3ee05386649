import type { JSX } from 'preact';
import type { UnitReading } from '../../../core/contract/unit-record';
import { PlusMinus } from '../figure-view';
import { StepNote } from '../step-note';
import { whenWords } from './unit-facts';

const inThousandths = 1000;

/** The leading figures of a reading, each with its word of judgement, and when it was measured. */
export function ReadingWords({ reading }: { readonly reading: UnitReading | null }): JSX.Element | null {
  if (!reading) return null;
  const rows = [
    ['Evenness', reading.evenness, 1, reading.evennessWords],
    ['Red print, %', reading.redPrint, 1, reading.redPrintWords],
    ['Colour, 10⁻³ u′v′', reading.toReferenceUv, inThousandths, reading.colourWords],
  ] as const;
  return (
    <div class="reading-words">
      <dl>
        {rows.map(([label, figure, scale, words]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>
              <PlusMinus figure={figure} scale={scale} />
              <span class="word">{words}</span>
            </dd>
          </div>
        ))}
      </dl>
      <StepNote words={reading.colourWords} />
      <p class="hint">Measured {whenWords(reading.measuredAt, new Date())}. The bench shows maps, spots and checks.</p>
    </div>
  );
}
