import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** One worked example: an input, the answer, and how far off an answer may be. */
export interface WorkedExample<Input, Expected> {
  readonly id: string;
  readonly what: string;
  readonly input: Input;
  readonly expected: Expected;
  readonly tolerance: unknown;
}

/** The worked examples whose id starts so; stops the test when there are none. */
export function workedExamples<Input, Expected>(idStart: string): WorkedExample<Input, Expected>[] {
  const path = fileURLToPath(new URL('../published/data/worked_examples.json', import.meta.url));
  const all = JSON.parse(readFileSync(path, 'utf8')) as WorkedExample<Input, Expected>[];
  const found = all.filter((example) => example.id.startsWith(idStart));
  if (found.length === 0) throw new Error(`no worked example starts with ${idStart}`);
  return found;
}
