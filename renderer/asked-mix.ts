import { adviseMix } from '../core/advice/lamp-mix';
import { amberDye, filamentGlow } from '../core/advice/usual-questions';
import type { MixDocument } from '../core/contract/lamp-advice';
import type { AskedMix } from './advice-messages';

/** A mix as the form asks it: the command line's document for the same data. @throws AppError as `adviseMix` @rule SC37 */
export function adviseAskedMix({ targetK, targetGlow, isDyed, ...asked }: AskedMix): MixDocument {
  const dye = isDyed ? amberDye : null;
  const target = targetGlow ?? filamentGlow(targetK ?? asked.filamentK, dye);
  return adviseMix({ ...asked, target, dye, isSameLens: false });
}
