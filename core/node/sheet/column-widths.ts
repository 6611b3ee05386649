/** What a column's texts need, points or mm alike. */
export interface ColumnNeed {
  /** Its longest word: narrower, words would be cut. */
  readonly least: number;
  /** Its longest text on one line. */
  readonly most: number;
}

/** Words that do not fit: the narrow columns keep theirs whole, only the widest share what is left evenly. */
function narrowed(needs: readonly ColumnNeed[], room: number): number[] {
  const widths = needs.map(() => 0);
  const order = needs.map((_, i) => i).sort((a, b) => needs[a].least - needs[b].least);
  let left = room;
  order.forEach((i, taken) => {
    widths[i] = Math.min(needs[i].least, left / (order.length - taken));
    left -= widths[i];
  });
  return widths;
}

/**
 * Widths of columns that share a room: each gets what its longest word needs; the rest goes to those whose texts would
 * like more, in proportion.
 *
 * @source common practice of automatic table layout
 */
export function columnWidths(needs: readonly ColumnNeed[], room: number): number[] {
  const total = (of: (need: ColumnNeed) => number): number => needs.reduce((sum, need) => sum + of(need), 0);
  const most = total((need) => need.most);
  if (most <= room) return needs.map((need) => need.most);
  const least = total((need) => need.least);
  if (least >= room) return narrowed(needs, room);
  const share = (room - least) / (most - least);
  return needs.map((need) => need.least + share * (need.most - need.least));
}
