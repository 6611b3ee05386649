import { sheetHtml, type PageFont } from '../../sheet/html/sheet-html';
import type { SheetContent } from '../../sheet/sheet-content';
import type { SheetPictures } from './pdf-drawing';
import { fontFilesOf, readFont } from './sheet-fonts';

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

/** JPEG begins with FF D8, else it is PNG. */
const mediaType = (bytes: Uint8Array): string => (bytes[0] === 0xff ? 'image/jpeg' : 'image/png');

/** Latin letters travel along; for others the reader's own fonts stand in. */
function pageFonts(): PageFont[] {
  const font = (face: 'plain' | 'strong' | 'words', weight: 400 | 600, style: 'normal' | 'italic'): PageFont => {
    const address = `data:font/woff;base64,${base64(readFont(fontFilesOf(face)[0]))}`;
    return { weight, style, address };
  };
  return [font('plain', 400, 'normal'), font('strong', 600, 'normal'), font('words', 400, 'italic')];
}

/** The record sheet as one HTML page with everything in it. @rule RS13 */
export function sheetPage(content: SheetContent, pictures: SheetPictures): string {
  const addresses = new Map(
    [...pictures].map(([name, bytes]) => [name, `data:${mediaType(bytes)};base64,${base64(bytes)}`]),
  );
  return sheetHtml(content, addresses, pageFonts());
}
