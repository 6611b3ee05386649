/** The width that every printed line keeps to. */
export const lineWidth = 100;

/** Breaks a sentence into lines of at most `width` signs at its blanks; a longer word stays whole. */
export function wrapText(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A first column and a text that hangs beside it, wrapped to the line width. */
export function hangingLines(head: string, text: string): string[] {
  const indent = ' '.repeat(head.length);
  return wrapText(text, lineWidth - head.length).map((line, i) => `${i === 0 ? head : indent}${line}`);
}

/** How many columns a text takes: wide (East Asian, emoji) signs take two, joining marks none. Near enough for a table. */
export function columnsOf(text: string): number {
  let columns = 0;
  for (const sign of text) {
    if (/\p{M}|\u200d|\ufe0f/u.test(sign)) continue;
    columns +=
      /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60]|\p{Extended_Pictographic}/u.test(
        sign,
      ) && sign > '\u00ff'
        ? 2
        : 1;
  }
  return columns;
}

/** Fills up with blanks at the end; cuts a text that is too long, marking the cut. */
export function padColumns(text: string, width: number): string {
  if (columnsOf(text) <= width) return text + ' '.repeat(width - columnsOf(text));
  let kept = '';
  for (const sign of text) {
    if (columnsOf(kept + sign) > width - 1) break;
    kept += sign;
  }
  return `${kept}…${' '.repeat(width - 1 - columnsOf(kept))}`;
}

/** The head of a block, ruled off to the line width. */
export function titleLine(text: string): string {
  return `── ${text} ${'─'.repeat(Math.max(0, lineWidth - 4 - columnsOf(text)))}`;
}
