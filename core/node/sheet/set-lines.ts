import type { Letters, LetterRun } from './letters';
import type { Face } from './sheet-fonts';
import { printable } from '../../display/figure-text';

export interface TextStyle {
  readonly face: Face;
  readonly sizePt: number;
}

/** A line that is ready to be written. */
export interface SetLine {
  readonly runs: readonly (LetterRun & { readonly widthPt: number })[];
  readonly widthPt: number;
}

/** Sets texts into lines of a width; knows each word's width after it was asked once. */
export class LineSetter {
  private readonly widths = new Map<string, number>();

  constructor(readonly letters: Letters) {}

  widthOf(text: string, { face, sizePt }: TextStyle): number {
    const key = `${face} ${sizePt} ${text}`;
    const known = this.widths.get(key);
    if (known !== undefined) return known;
    const width = this.letters.runsOf(text, face).reduce((sum, run) => sum + this.letters.widthOf(run, sizePt), 0);
    this.widths.set(key, width);
    return width;
  }

  /** One line of exactly this text. */
  line(text: string, { face, sizePt }: TextStyle): SetLine {
    const runs = this.letters
      .runsOf(printable(text), face)
      .map((run) => ({ ...run, widthPt: this.letters.widthOf(run, sizePt) }));
    return { runs, widthPt: runs.reduce((sum, { widthPt }) => sum + widthPt, 0) };
  }

  /** Lines no wider than `widthPt`: broken at blanks, and inside a word only where it alone is too wide. */
  lines(text: string, style: TextStyle, widthPt: number): SetLine[] {
    return text.split(/\r\n|\r|\n/).flatMap((paragraph) => this.linesOfParagraph(printable(paragraph), style, widthPt));
  }

  private linesOfParagraph(text: string, style: TextStyle, widthPt: number): SetLine[] {
    const lines: string[] = [];
    let current = '';
    for (const word of text.split(' ')) {
      const longer = current === '' ? word : `${current} ${word}`;
      if (this.widthOf(longer, style) <= widthPt) {
        current = longer;
        continue;
      }
      if (current !== '') lines.push(current);
      const pieces = this.pieces(word, style, widthPt);
      lines.push(...pieces.slice(0, -1));
      current = pieces.at(-1) ?? '';
    }
    return [...lines, current].map((line) => this.line(line, style));
  }

  /** A word cut into pieces that fit; whole when it fits. */
  private pieces(word: string, style: TextStyle, widthPt: number): string[] {
    if (this.widthOf(word, style) <= widthPt) return [word];
    const pieces: string[] = [];
    let current = '';
    for (const [letter] of word.matchAll(/\P{M}\p{M}*|\p{M}+/gu)) {
      if (current !== '' && this.widthOf(current + letter, style) > widthPt) {
        pieces.push(current);
        current = '';
      }
      current += letter;
    }
    return [...pieces, current];
  }
}
