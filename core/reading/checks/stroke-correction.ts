/**
 * A straight stroke blurred by a Gaussian: its width at half depth over the width of a flank (10 to 90 % of the depth it still
 * reaches), and the factor from that flank to the flank of an edge without a second one beside it.
 */
const table: readonly (readonly [number, number])[] = [
  [1.3959, 1.5194],
  [1.3961, 1.5038],
  [1.398, 1.4598],
  [1.4062, 1.395],
  [1.4266, 1.3194],
  [1.4653, 1.2432],
  [1.5261, 1.1738],
  [1.611, 1.1159],
  [1.7199, 1.0716],
  [2.0049, 1.0214],
  [2.3547, 1.0048],
  [3.1216, 1],
];

/**
 * By how much the flank of a blurred stroke is narrower than that of a single edge under the same blur, 1..1.5194.
 *
 * The stroke is 1 - [F((x + w/2)/s) - F((x - w/2)/s)], F the normal distribution. Its two widths have a ratio that tells
 * w/s, and w/s tells the factor; linear between the rows for w/s = 0, 0.5, 1, ... 4, 5, 6, 8.
 *
 * @param strokeOverFlank  width at half depth over width of a flank, both in one unit
 * @returns 1 for strokes that are wide beside their flanks, 1.5194 for lines
 * @source own calculation of that profile
 * @rule CK1
 */
export function strokeCorrection(strokeOverFlank: number): number {
  const above = table.findIndex(([ratio]) => ratio > strokeOverFlank);
  if (above === 0) return table[0][1];
  if (above < 0) return 1;
  const [fromRatio, fromFactor] = table[above - 1];
  const [toRatio, toFactor] = table[above];
  return fromFactor + ((toFactor - fromFactor) * (strokeOverFlank - fromRatio)) / (toRatio - fromRatio);
}
