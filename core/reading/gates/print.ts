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
  return [...singlePhotoGates(facts), ...registrationGates(facts)];
}

function singlePhotoGates(facts: GateFacts): Gate[] {
  if (facts.printMaskFrom !== 'photo') return [];
  if (facts.polarity === 'light') {
    const message = 'The lit figures were found in this photo alone: those much darker than the rest may be missing.';
    const remedy = 'Look at the maps: a lit figure that shows no light there was left out, and the score is too good.';
    return [gate('PRINT_MASK_SINGLE_PHOTO', 'note', null, ['evenness', 'spots'], message, remedy)];
  }
  const message = 'The print was found in this photo alone: shadows narrower than 4 mm may be taken for print.';
  const remedy =
    'Look at the picture of the print: a shadow that is marked there was left out, and the score is too good.';
  return [gate('PRINT_MASK_SINGLE_PHOTO', 'note', null, ['evenness', 'spots'], message, remedy)];
}

/** What could not be laid on another photo by its print. */
function registrationGates({ notRegistered, unusedPrintPhoto }: GateFacts): Gate[] {
  const raised: Gate[] = [];
  if (unusedPrintPhoto !== null) {
    const message = `The print of ${unusedPrintPhoto} does not fit this window: it was not used.`;
    const remedy = 'Take it from the same place with the same lens, sharp, with the whole window lit by the room.';
    raised.push(gate('PRINT_PHOTO_UNUSED', 'warn', null, ['evenness', 'spots', 'redPrint'], message, remedy));
  }
  if (notRegistered !== null) {
    const message = `The window could not be laid on that of the first photo by its print: ${notRegistered}.`;
    const remedy =
      'Check the corners of both photos. Without print nothing can be done: places differ by about 0.5 mm.';
    raised.push(gate('NOT_REGISTERED', 'note', null, ['spots'], message, remedy));
  }
  return raised;
}
