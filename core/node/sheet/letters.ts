import type PDFDocument from 'pdfkit';
import { readFont, fontFilesOf, type Face } from './sheet-fonts';

type Pdf = InstanceType<typeof PDFDocument>;

/** A stretch of text in one font. */
export interface LetterRun {
  readonly font: string;
  readonly text: string;
}

/** The part of pdfkit's loaded font that its types do not tell of. */
interface LoadedFont {
  readonly _font: { readonly font: { hasGlyphForCodePoint(codePoint: number): boolean } };
}

/** Letters with their accents stay together. */
const clusters = /\P{M}\p{M}*|\p{M}+/gu;

/**
 * Which font each letter of a text is printed in: Source Sans where it has the letter, else DejaVu; a letter that neither
 * has is printed as [U+XXXX] and remembered, never dropped.
 *
 * @rule RS11
 */
export class Letters {
  private readonly fontOfCluster = new Map<string, string | null>();
  private readonly opened = new Set<string>();
  /** Code points that no font has, as they are printed. */
  readonly missing = new Set<string>();

  constructor(private readonly pdf: Pdf) {}

  /** Fonts are read when the first letter asks for them: most sheets need two or three files. */
  private has(file: string, cluster: string): boolean {
    if (!this.opened.has(file)) {
      this.pdf.registerFont(file, readFont(file));
      this.opened.add(file);
    }
    this.pdf.font(file);
    const { font } = (this.pdf as unknown as LoadedFont)._font;
    return [...cluster].every((letter) => font.hasGlyphForCodePoint(letter.codePointAt(0)!));
  }

  private fontFor(cluster: string, face: Face): string | null {
    const key = `${face} ${cluster}`;
    const known = this.fontOfCluster.get(key);
    if (known !== undefined) return known;
    const found = fontFilesOf(face).find((file) => this.has(file, cluster)) ?? null;
    this.fontOfCluster.set(key, found);
    return found;
  }

  private marked(cluster: string): string {
    const names = [...cluster].map(
      (letter) => `[U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}]`,
    );
    for (const name of names) this.missing.add(name);
    return names.join('');
  }

  /** A text without line ends as runs of one font each. */
  runsOf(text: string, face: Face): LetterRun[] {
    const runs: { font: string; text: string }[] = [];
    const add = (font: string, piece: string): void => {
      const last = runs.at(-1);
      if (last?.font === font) last.text += piece;
      else runs.push({ font, text: piece });
    };
    const [first] = fontFilesOf(face);
    for (const [cluster] of text.normalize('NFC').matchAll(clusters)) {
      // A blank goes with what stands before it, so that words are not torn into runs.
      const font = cluster === ' ' ? (runs.at(-1)?.font ?? first) : this.fontFor(cluster, face);
      if (font === null) add(first, this.marked(cluster));
      else add(font, cluster);
    }
    return runs;
  }

  /** Width of a run, points. */
  widthOf({ font, text }: LetterRun, sizePt: number): number {
    return this.pdf.font(font).fontSize(sizePt).widthOfString(text);
  }

  /** Writes a run on its base line. */
  write({ font, text }: LetterRun, xPt: number, baselinePt: number, sizePt: number): void {
    this.pdf.font(font).fontSize(sizePt).text(text, xPt, baselinePt, { lineBreak: false, baseline: 'alphabetic' });
  }
}
