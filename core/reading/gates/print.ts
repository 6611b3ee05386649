import type { Gate } from '../../contract/gates';
import type { GateFacts } from './gate-facts';
import { everything, gate } from './gate';

/** What was taken for print. */
export function printGates(facts: GateFacts): Gate[] {
  if (facts.polarity === null) {
    const message = 'It is not clear whether dark print stands on a glowing ground or lit figures on black.';
    const remedy = 'Check the outline; state the print as dark (the ground glows) or light (the figures glow).';
    return [gate('PRINT_UNDECIDED', 'refuse', null, everything, message, remedy)];
  }
  if (facts.printMaskFrom !== 'photo') return [];
  const message = 'The print was found in this photo alone: shadows narrower than 4 mm may be taken for print.';
  const remedy =
    'Look at the picture of the print: a shadow that is marked there was left out, and the score is too good.';
  return [gate('PRINT_MASK_SINGLE_PHOTO', 'note', null, ['evenness', 'spots'], message, remedy)];
}
