import { inflateSync } from 'node:zlib';

interface PdfObject {
  readonly dictionary: string;
  readonly stream: Buffer | null;
}

/** The objects of a PDF by their numbers: as much of the format as our own files use. */
function objectsOf(file: Buffer): Map<number, PdfObject> {
  const text = file.toString('latin1');
  const objects = new Map<number, PdfObject>();
  // No \r before endstream: it would be the last byte of what is packed.
  for (const match of text.matchAll(/(\d+) 0 obj\n([\s\S]*?)(?:stream\r?\n([\s\S]*?)\nendstream\s*)?\nendobj/g)) {
    const [, id, dictionary, packed] = match;
    const bytes = packed === undefined ? null : Buffer.from(packed, 'latin1');
    const isPacked = bytes !== null && dictionary.includes('/FlateDecode') && !dictionary.includes('/Image');
    objects.set(Number(id), { dictionary, stream: bytes && isPacked ? inflateSync(bytes) : bytes });
  }
  return objects;
}

const hexText = (hex: string): string =>
  (hex.match(/.{4}/g) ?? []).map((unit) => String.fromCharCode(parseInt(unit, 16))).join('');

/** Which letters a font's codes stand for. */
function lettersOf(map: string): Map<string, string> {
  const letters = new Map<string, string>();
  for (const [, from, , list] of map.matchAll(/<(\w{4})> <(\w{4})> \[([^\]]*)\]/g)) {
    // A ligature stands for several letters.
    [...list.matchAll(/<([\w ]*)>/g)].forEach(([, hex], i) => {
      letters.set((parseInt(from, 16) + i).toString(16).padStart(4, '0'), hexText(hex.replace(/ /g, '')));
    });
  }
  return letters;
}

/** A text as it stands on a page: points from its left top corner. */
export interface PlacedText {
  readonly text: string;
  readonly xPt: number;
  readonly yPt: number;
  readonly widthPt: number;
  readonly sizePt: number;
}

export interface PlacedImage {
  readonly xPt: number;
  readonly yPt: number;
  readonly widthPt: number;
  readonly heightPt: number;
}

export interface PdfPage {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly texts: readonly PlacedText[];
  readonly images: readonly PlacedImage[];
}

const numbersIn = (text: string): number[] => (text.match(/-?[\d.]+/g) ?? []).map(Number);

interface ReadFont {
  readonly letters: ReadonlyMap<string, string>;
  /** Of each code, thousandths of the size. */
  readonly widths: readonly number[];
}

function textsOf(content: string, fontOf: (name: string) => ReadFont, heightPt: number): PlacedText[] {
  const texts: PlacedText[] = [];
  for (const [, block] of content.matchAll(/BT\n([\s\S]*?)\nET/g)) {
    const [, , , , xPt, up] = numbersIn(/([-\d. ]+) Tm/.exec(block)?.[1] ?? '');
    const [, font, size] = /\/(F\d+) ([\d.]+) Tf/.exec(block) ?? [];
    const { letters, widths } = fontOf(font);
    const codes = [...block.matchAll(/<([0-9a-f]*)>/g)].flatMap(([, hex]) => hex.match(/.{4}/g) ?? []);
    const text = codes.map((code) => letters.get(code) ?? '\ufffd').join('');
    const kerned = [...block.matchAll(/> (-?[\d.]+)/g)].reduce((sum, [, by]) => sum - Number(by), 0);
    const units = codes.reduce((sum, code) => sum + (widths[parseInt(code, 16)] ?? 0), kerned);
    const widthPt = (units * Number(size)) / 1000;
    texts.push({ text, widthPt, xPt, yPt: heightPt - up, sizePt: Number(size) });
  }
  return texts;
}

function imagesOf(content: string, heightPt: number): PlacedImage[] {
  return [...content.matchAll(/q\n([-\d. ]+) cm\n\/I\d+ Do/g)].map(([, matrix]) => {
    const [widthPt, , , down, xPt, y] = numbersIn(matrix);
    // The page was turned upside down before: y grows downwards here.
    return { xPt, yPt: y + down, widthPt, heightPt: Math.abs(down), pageHeightPt: heightPt };
  });
}

/** The pages of a PDF with their texts and pictures. */
export function readPdf(file: Buffer): PdfPage[] {
  const objects = objectsOf(file);
  const at = (id: string | undefined): PdfObject => objects.get(Number(id))!;
  const fontsRead = new Map<string, ReadFont>();
  const readFont = (id: string): ReadFont => {
    const known = fontsRead.get(id);
    if (known) return known;
    const toUnicode = /\/ToUnicode (\d+) 0 R/.exec(at(id).dictionary)?.[1];
    const descendant = /\/DescendantFonts \[(\d+) 0 R\]/.exec(at(id).dictionary)?.[1];
    const widths = numbersIn(/\/W \[0 \[([^\]]*)\]/.exec(at(descendant).dictionary)?.[1] ?? '');
    const font = { letters: lettersOf(at(toUnicode).stream!.toString('latin1')), widths };
    fontsRead.set(id, font);
    return font;
  };
  const pages = [...objects.values()].filter(({ dictionary }) => /\/Type \/Page\n/.test(dictionary));
  return pages.map(({ dictionary }) => {
    const [, , widthPt, heightPt] = numbersIn(/\/MediaBox \[([^\]]*)\]/.exec(dictionary)![1]);
    const content = at(/\/Contents (\d+) 0 R/.exec(dictionary)?.[1]).stream!.toString('latin1');
    const resources = at(/\/Resources (\d+) 0 R/.exec(dictionary)?.[1]).dictionary;
    const fonts = new Map([...resources.matchAll(/\/(F\d+) (\d+) 0 R/g)].map(([, name, id]) => [name, id]));
    const texts = textsOf(content, (name) => readFont(fonts.get(name)!), heightPt);
    return { widthPt, heightPt, texts, images: imagesOf(content, heightPt) };
  });
}

/** All that can be read in a PDF, each stretch on its own line. */
export function pdfText(file: Buffer): string {
  return readPdf(file)
    .flatMap(({ texts }) => texts.map(({ text }) => text))
    .join('\n');
}
