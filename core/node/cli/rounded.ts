/**
 * A number as the outputs carry it: 6 significant digits, no negative zero.
 *
 * @throws RangeError for NaN and infinity: a figure that cannot be given must say so instead (a defect of ours)
 * @source our own choice: far below any plus-minus, and equal on every machine
 * @rule CL5
 */
export function roundedNumber(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`a number for output is ${value}`);
  return Number(value.toPrecision(6)) + 0;
}

/** JSON of a document with every number rounded, two blanks a level, ending with a line end. @rule CL5 */
export function jsonText(document: unknown): string {
  const text = JSON.stringify(
    document,
    (_, value: unknown) => (typeof value === 'number' ? roundedNumber(value) : value),
    2,
  );
  return `${text}\n`;
}
