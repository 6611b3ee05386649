import type { UnitRecord } from '../../../contract/unit-record';
import type { Book } from '../../book/book';
import type { GivenArguments } from '../arguments';
import type { Shell } from '../shell';

/** One call of a command of `evendial unit`. */
export interface UnitCall {
  readonly book: Book;
  readonly given: GivenArguments;
  /** What is no option, in the order given. */
  readonly words: readonly string[];
  readonly isJson: boolean;
  readonly shell: Shell;
}

export interface UnitCommand {
  /** What follows `evendial unit`. */
  readonly usage: string;
  readonly values?: readonly string[];
  readonly flags?: readonly string[];
  /** Fewest and most words; left out: no limit. */
  readonly words: readonly [fewest: number, most?: number];
  /** @returns the exit code */
  readonly run: (call: UnitCall) => Promise<number>;
}

/** A document of the book as it is written: unlike figures, a record's numbers are never rounded. */
export function documentText(document: unknown): string {
  return `${JSON.stringify(document, null, 2)}\n`;
}

/** Prints a unit after a change: as JSON the whole record, else what was done. */
export async function printChanged({ isJson, shell }: UnitCall, unit: UnitRecord, done: string): Promise<number> {
  await shell.print(isJson ? documentText(unit) : `${done}\n  unit ${unit.id}, revision ${unit.revision}\n`);
  return 0;
}
