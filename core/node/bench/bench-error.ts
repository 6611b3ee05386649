import { AppError } from '../../base/errors';
import type { BenchError } from '../../contract/bench';
import { EngineStopped } from '../engine/run-task';

/** Nobody's mistake but ours; the engine goes on, and so may the user. */
const defectRemedy = 'Try once more. If it happens again, please report it, with the photo if you can.';

/** What the page is told of anything that a verb threw. No stack, no path. @rule BE5 */
export function benchErrorOf(error: unknown): BenchError {
  if (error instanceof AppError) {
    const { code, message, remedy } = error;
    const kind = error.kind === 'refusal' ? 'usage' : error.kind;
    return { kind, code, message, remedy };
  }
  if (error instanceof EngineStopped) {
    const message = 'The measuring engine has stopped by itself.';
    const remedy = 'It starts again with the next photo. If it stops at this one again, use a smaller copy of it.';
    return { kind: 'engine-stopped', code: 'ENGINE_STOPPED', message, remedy };
  }
  return {
    kind: 'engine-stopped',
    code: 'DEFECT',
    message: 'A defect of the program stopped this.',
    remedy: defectRemedy,
  };
}
