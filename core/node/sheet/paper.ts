import PDFDocument from 'pdfkit';
import type { Rgb } from '../../display/colour-scale';
import { sheetWidthMm } from '../../sheet/sheet-content';
import { Letters } from './letters';
import { LineSetter, type SetLine, type TextStyle } from './set-lines';

export const ptPerMm = 72 / 25.4;

export const papers = { A4: [210, 297], letter: [215.9, 279.4] } as const;
export type PaperName = keyof typeof papers;

const topMm = 16;
const bottomMm = 19;
const footMm = 11;
const ink: Rgb = [17, 17, 17];

export interface PaperOptions {
  /** A usual size by its name, or width and height in mm. */
  readonly paper: PaperName | readonly [widthMm: number, heightMm: number];
  readonly title: string;
  readonly foot: string;
  readonly program: string;
  /** The document's own date. */
  readonly savedAt: string;
}

/** Pages that are filled from the top; lengths in mm of paper. */
export class Paper {
  readonly pdf: InstanceType<typeof PDFDocument>;
  readonly setter: LineSetter;
  readonly leftMm: number;
  yMm = topMm;
  private readonly heightMm: number;

  constructor(private readonly options: PaperOptions) {
    const { paper } = options;
    const [width, height] = typeof paper === 'string' ? papers[paper] : paper;
    this.heightMm = height;
    this.leftMm = (width - sheetWidthMm) / 2;
    const date = new Date(options.savedAt);
    this.pdf = new PDFDocument({
      size: [width * ptPerMm, height * ptPerMm],
      margin: 0,
      autoFirstPage: false,
      bufferPages: true,
      // None of the fonts that pdfkit knows by name: they are not embedded.
      font: null as unknown as string,
      lang: 'en',
      displayTitle: true,
      info: {
        Title: options.title,
        Creator: options.program,
        Producer: options.program,
        CreationDate: date,
        ModDate: date,
      },
    });
    this.setter = new LineSetter(new Letters(this.pdf));
    this.newPage();
  }

  get bottomMm(): number {
    return this.heightMm - bottomMm;
  }

  /** What is left of the page. */
  get roomMm(): number {
    return this.bottomMm - this.yMm;
  }

  get isAtTop(): boolean {
    return this.yMm === topMm;
  }

  newPage(): void {
    this.pdf.addPage();
    this.yMm = topMm;
  }

  /** Goes on to the next page when less than this is left. @returns whether it did */
  ensure(mm: number): boolean {
    if (this.roomMm >= mm || this.isAtTop) return false;
    this.newPage();
    return true;
  }

  space(mm: number): void {
    if (!this.isAtTop) this.yMm += mm;
  }

  /** Writes a line that was set, from `xMm` of the sheet, on a base line. */
  write(line: SetLine, xMm: number, baselineMm: number, sizePt: number, colour: Rgb = ink): void {
    this.pdf.fillColor([...colour]);
    let x = (this.leftMm + xMm) * ptPerMm;
    for (const run of line.runs) {
      this.setter.letters.write(run, x, baselineMm * ptPerMm, sizePt);
      x += run.widthPt;
    }
  }

  lines(text: string, style: TextStyle, widthMm: number): SetLine[] {
    return this.setter.lines(text, style, widthMm * ptPerMm);
  }

  rule(xMm: number, widthMm: number, yMm: number, strokeMm: number, colour: Rgb = ink): void {
    const [x, y] = [(this.leftMm + xMm) * ptPerMm, yMm * ptPerMm];
    this.pdf
      .moveTo(x, y)
      .lineTo(x + widthMm * ptPerMm, y)
      .lineWidth(strokeMm * ptPerMm)
      .undash()
      .strokeColor([...colour])
      .stroke();
  }

  /** Writes the foot of every page, and gives the file. */
  async finish(): Promise<Buffer> {
    const { count } = this.pdf.bufferedPageRange();
    const style = { face: 'plain', sizePt: 8 } as const;
    const y = this.heightMm - footMm;
    for (let page = 0; page < count; page++) {
      this.pdf.switchToPage(page);
      this.rule(0, sheetWidthMm, y - 4, 0.2);
      const number = this.setter.line(`Page ${page + 1} of ${count}`, style);
      const [foot] = this.lines(this.options.foot, style, sheetWidthMm - 34);
      this.write(foot, 0, y, style.sizePt);
      this.write(number, sheetWidthMm - number.widthPt / ptPerMm, y, style.sizePt);
    }
    const parts: Buffer[] = [];
    const done = new Promise<void>((resolve, reject) => {
      this.pdf.on('data', (part: Buffer) => parts.push(part));
      this.pdf.on('end', resolve);
      this.pdf.on('error', reject);
    });
    this.pdf.end();
    await done;
    return Buffer.concat(parts);
  }
}
