import type { ErrorEntry } from '../../core/contract/readings';
import type { AdviceQuestion, AdviceQuestions, FromAdviceWorker, ToAdviceWorker } from '../advice-messages';

export type Advised<Name extends AdviceQuestion> =
  { readonly answer: AdviceQuestions[Name]['answers'] } | { readonly refusal: ErrorEntry };

interface Waiting {
  readonly message: ToAdviceWorker;
  readonly answer: (said: FromAdviceWorker | null) => void;
}

/** The worker as the page needs it. */
export interface AdviceWorkerLike {
  onmessage: ((event: MessageEvent<FromAdviceWorker>) => void) | null;
  /** It ended by a defect, which the page reports as its own. */
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: ToAdviceWorker): void;
}

const stopped: ErrorEntry = {
  code: 'ADVICE_STOPPED',
  message: 'the advice came to a stop by a defect of this program',
  remedy: 'Choose the photo again; what was measured and planned is kept.',
};

/**
 * Asks the advice worker one thing at a time. Of questions of one name that wait, only the last is asked: a slider that moves on
 * does not care for where it was.
 */
export class Advice {
  readonly #start: () => AdviceWorkerLike;
  #worker: AdviceWorkerLike | null = null;
  #count = 0;
  #asked: Waiting | null = null;
  readonly #waiting = new Map<AdviceQuestion, Waiting>();

  /** @param start  called when the first question comes */
  constructor(start: () => AdviceWorkerLike) {
    this.#start = start;
  }

  /** @returns null when a later question of the same name took its place */
  ask<Name extends AdviceQuestion>(name: Name, asks: AdviceQuestions[Name]['asks']): Promise<Advised<Name> | null> {
    const message = { id: ++this.#count, name, asks } as unknown as ToAdviceWorker;
    return new Promise((resolve) => {
      this.#waiting.get(name)?.answer(null);
      this.#waiting.set(name, { message, answer: (said) => resolve(said as Advised<Name> | null) });
      this.#next();
    });
  }

  #next(): void {
    if (this.#asked !== null) return;
    const first = this.#waiting.entries().next();
    if (first.done) return;
    const [name, waiting] = first.value;
    this.#waiting.delete(name);
    this.#asked = waiting;
    this.#worker ??= this.#started();
    this.#worker.postMessage(waiting.message);
  }

  #started(): AdviceWorkerLike {
    const worker = this.#start();
    const settle = (answerTo: (asked: Waiting) => void): void => {
      const asked = this.#asked;
      this.#asked = null;
      if (asked) answerTo(asked);
      this.#next();
    };
    worker.onmessage = ({ data }) => settle((asked) => asked.answer(data));
    worker.onerror = () => {
      this.#worker = null;
      settle(({ message, answer }) => answer({ id: message.id, refusal: stopped }));
    };
    return worker;
  }
}
