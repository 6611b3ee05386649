import type { JSX } from 'preact';
import type { ErrorEntry } from '../../../core/contract/readings';
import { Glyph } from '../glyph';

/** The remedies name options of the command line; on the screen they are controls. */
const onScreen: Readonly<Record<string, string>> = {
  LAMPS_NOT_SEEN: 'Photograph each lamp lit alone, and add them up on station Compare.',
  LAMPS_NOT_LIKE_MODEL: 'Photograph each lamp lit alone, and add them up on station Compare.',
  LAMPS_AT_BOUND: 'Photograph each lamp lit alone, and add them up on station Compare.',
  LAMPS_UNSURE: 'Photograph each lamp lit alone, and add them up on station Compare.',
  LAMPS_TOO_MANY: 'Photograph each lamp lit alone, and add them up on station Compare.',
  GAP_UNKNOWN: 'Measure the gap between shade and scale, and type it in.',
  GAP_TOO_SMALL: 'Mount the shade 0.8 mm or more behind the scale.',
  CURRENT_TOO_HIGH: 'Take less current, or leave it empty: half the maximum is then kept.',
  MEASURED_OUTSIDE:
    'Photograph the try with all its lamps on and the camera set as for the target, or choose “none yet” as its photo.',
  LIGHT_UNKNOWN: 'Add the full viewing angle and the current of the data sheet, for each lamp.',
};

/** Why something cannot be worked out, and what to do. @param id  of the words, for the field that they speak of */
export function Refused({ refusal, id }: { readonly refusal: ErrorEntry; readonly id?: string }): JSX.Element {
  const { code, message, remedy } = refusal;
  return (
    <p class="gate" role="status" data-refused={code} id={id}>
      <Glyph kind="refuse" />
      <span>
        <b>{message.charAt(0).toUpperCase() + message.slice(1)}.</b>{' '}
        <span class="remedy">{onScreen[code] ?? remedy}</span>
      </span>
    </p>
  );
}
