import { describe, expect, it } from 'vitest';
import { newUnit } from '../../../core/book/revisions';
import { sheetPdf } from '../../../core/node/sheet/sheet-pdf';
import { sheetPictures } from '../../../core/node/sheet/sheet-pictures';
import { sheetContent, shownWindows, type SheetSource } from '../../../core/sheet/make-content';
import type { UnitTrial } from '../../../core/contract/unit-record';
import { pdfText, readPdf } from '../../support/pdf-reader';
import { drawingTitles, plainPictures, textsOf } from '../../support/sheet-pictures';
import { larkfieldSource } from '../../support/sheet-source';
import { savedAt } from '../../support/unit-records';

const ptPerMm = 72 / 25.4;

async function pdfOf(source: SheetSource, paper: 'A4' | 'letter' = 'A4'): Promise<Buffer> {
  const content = sheetContent(source);
  return sheetPdf(content, plainPictures(content), { paper, program: source.program });
}

/** Lines are broken anywhere: compared without blanks. */
const closed = (text: string): string => text.replace(/\s+/g, '');

describe('sheetPdf', () => {
  it('[RS12] has every section and figure of the content as real text', async () => {
    const source = larkfieldSource();
    const text = closed(pdfText(await pdfOf(source)));
    const content = sheetContent(source);
    // What a drawing is called stands on the page only; the date in the document's own facts.
    const unseen = [savedAt, ...drawingTitles(content)];
    const parts = textsOf(content)
      .filter((one) => !unseen.includes(one))
      .flatMap((one) => one.split(/(?=±)/));
    expect(parts.length).toBeGreaterThan(150);
    expect(parts.filter((part) => !text.includes(closed(part)))).toEqual([]);
  });

  it('[RS3] photos are printed at one scale, true within 0.1 %, on A4 and on Letter', async () => {
    for (const [paper, width, height] of [
      ['A4', 210, 297],
      ['letter', 215.9, 279.4],
    ] as const) {
      // prettier-ignore
      const [page] = readPdf(await pdfOf(larkfieldSource(), paper));
      expect(page.widthPt / ptPerMm).toBeCloseTo(width, 3);
      expect(page.heightPt / ptPerMm).toBeCloseTo(height, 3);
      const [before, after] = page.images;
      for (const { widthPt, heightPt } of [before, after]) {
        expect(Math.abs(widthPt / ptPerMm / (92 * 1.6) - 1)).toBeLessThan(0.001);
        expect(Math.abs(heightPt / ptPerMm / (18 * 1.6) - 1)).toBeLessThan(0.001);
      }
      expect(after.xPt).toBeCloseTo(before.xPt, 6);
    }
  });

  it('[RS11] letters that Source Sans lacks come from DejaVu, those that none has are told by number, none is dropped', async () => {
    const notes = 'Grüße Ελληνικά Русский ≥ ½ Ω 日本 e\u0301 \u{1F3B5}x';
    const text = pdfText(await pdfOf({ ...larkfieldSource({ notes }), measured: [], comparison: null }));
    const line = closed(text);
    for (const word of ['Grüße', 'Ελληνικά', 'Русский', '≥½Ω', '[U+65E5][U+672C]', 'é']) expect(line).toContain(word);
    expect(text).not.toContain('\ufffd');
    expect(text).toContain('since no font of this program has these letters: ');
    expect(closed(text)).toContain('theseletters:[U+1F3B5][U+65E5][U+672C]');
  });

  it('[RS12] forty trials with long names fit: every name is there, table heads stand on each page, nothing beyond the margins', async () => {
    const trials = Array.from({ length: 40 }, (_, i): UnitTrial => {
      const name =
        i === 7 ? 'W'.repeat(150) : `Trial ${i + 1}: warm white behind two sheets of paper, ${i} mm further back`;
      return { name, diffuser: 'paper', notes: i === 3 ? 'long '.repeat(1500) : `note ${i}` };
    });
    const source = larkfieldSource({ trials, photos: [], chosen: { trial: trials[39].name } });
    const file = await pdfOf(source);
    const pages = readPdf(file);
    const text = closed(pdfText(file));
    for (const { name } of trials) expect(text).toContain(closed(name));
    const heads = pages.map(({ texts }) => texts.filter((one) => one.text === 'Evenness').length);
    expect(heads.filter((count) => count > 0).length).toBeGreaterThan(2);
    for (const { texts, widthPt, heightPt } of pages) {
      for (const { xPt, yPt, widthPt: wide } of texts) {
        expect(xPt).toBeGreaterThan(17 * ptPerMm);
        expect(wide).toBeGreaterThan(0);
        expect(xPt + wide).toBeLessThan(widthPt - 17.5 * ptPerMm);
        expect(yPt).toBeGreaterThan(14 * ptPerMm);
        expect(yPt).toBeLessThan(heightPt - 10 * ptPerMm);
      }
      const foot = texts.filter(({ text }) => text.startsWith('Page '));
      expect(foot).toHaveLength(1);
    }
    expect(text).toContain(`Page${pages.length}of${pages.length}`);
  });

  it('[RS2] an empty record makes a sheet of one page', async () => {
    const source = { record: newUnit('one', 'Larkfield M-4', savedAt), measured: [], failed: [], comparison: null, program: 'Evendial 0.1.0' }; // prettier-ignore
    const pages = readPdf(await pdfOf(source));
    expect(pages).toHaveLength(1);
    expect(pages[0].texts[0].text).toBe('Larkfield M-4');
  });

  it('[RS12] equal records make equal bytes, with the record’s own date', async () => {
    const [one, other] = [await pdfOf(larkfieldSource()), await pdfOf(larkfieldSource())];
    expect(one.equals(other)).toBe(true);
    expect(one.toString('latin1')).toContain('D:20260531180000Z');
  });
});

describe('sheetPictures', () => {
  it('[RS4, RS10] makes a photo and two maps of each side, with nothing of the camera in them', async () => {
    const source = larkfieldSource();
    const [, meter] = shownWindows(source);
    const pictures = await sheetPictures([meter], new AbortController().signal);
    expect([...pictures.keys()].sort()).toEqual([
      'after luminance meter',
      'after photo meter',
      'after unevenness meter',
      'before luminance meter',
      'before photo meter',
      'before unevenness meter',
    ]);
    for (const bytes of pictures.values()) expect(Buffer.from(bytes).toString('latin1')).not.toMatch(/Exif|GPS|http/);
  });
});
