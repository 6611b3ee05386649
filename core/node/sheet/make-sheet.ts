import { sheetContent, shownWindows, type SheetSource } from '../../sheet/make-content';
import { sheetPage } from './html-file';
import type { PaperName } from './paper';
import { sheetPictures } from './sheet-pictures';

/** What the sheet is made as: pages of paper, or one HTML page. */
export type SheetForm = { readonly kind: 'pdf'; readonly paper: PaperName } | { readonly kind: 'html' };

/** The record sheet as a file. @rule RS1 */
export async function makeSheet(source: SheetSource, form: SheetForm, signal: AbortSignal): Promise<Uint8Array> {
  const content = sheetContent(source);
  const pictures = await sheetPictures(shownWindows(source), signal);
  if (form.kind === 'html') return new TextEncoder().encode(sheetPage(content, pictures));
  // The maker of PDF files is half of the program's start: it waits until it is needed.
  const { sheetPdf } = await import('./sheet-pdf');
  return sheetPdf(content, pictures, { paper: form.paper, program: source.program });
}
