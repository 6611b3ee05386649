import type { ListItem, SheetBlock, SheetContent, TableCell, TableColumn } from '../sheet-content';
import { markDrawing } from '../marks';
import { drawingSvg, type PictureAddresses } from './drawing-svg';
import { escaped } from './escape';
import { sheetStyle } from './sheet-style';

/** Letters that travel with the page, as a `data:` address. */
export interface PageFont {
  readonly weight: 400 | 600;
  readonly style: 'normal' | 'italic';
  readonly address: string;
}

function fontFace({ weight, style, address }: PageFont): string {
  const family = '"Source Sans 3"';
  return `@font-face{font-family:${family};font-weight:${weight};font-style:${style};src:url(${address}) format("woff")}`;
}

function figureHtml(text: string): string {
  const at = text.indexOf('±');
  const [value, plusMinus] = at < 0 ? [text, ''] : [text.slice(0, at).trimEnd(), ` ${text.slice(at)}`];
  return `<span class="value">${escaped(value)}</span><span class="plus-minus">${escaped(plusMinus)}</span>`;
}

function cellHtml(cell: TableCell, { align, tone }: TableColumn): string {
  const names = [...(align === 'figure' ? ['figure'] : []), ...(tone === undefined ? [] : [tone])];
  const open = names.length === 0 ? '<td>' : `<td class="${names.join(' ')}">`;
  if (typeof cell !== 'string') return `${open}${drawingSvg(cell, new Map())}</td>`;
  return `${open}${align === 'figure' ? figureHtml(cell) : escaped(cell)}</td>`;
}

function tableHtml({ columns, rows }: Extract<SheetBlock, { kind: 'table' }>): string {
  const cells = columns.map(({ title }) => (title === '' ? '<td></td>' : `<th scope="col">${escaped(title)}</th>`));
  const isHeaded = columns.some(({ title }) => title !== '');
  const head = isHeaded ? `<thead><tr>${cells.join('')}</tr></thead>` : '';
  const body = rows.map((row) => `<tr>${row.map((cell, i) => cellHtml(cell, columns[i])).join('')}</tr>`);
  return `<div class="scroll" tabindex="0"><table>${head}<tbody>${body.join('\n')}</tbody></table></div>`;
}

function listItemHtml({ mark, text, remedy }: ListItem): string {
  const more = remedy === undefined ? '' : `<br><span class="remedy">${escaped(remedy)}</span>`;
  return `<li>${drawingSvg(markDrawing(mark), new Map())}<span>${escaped(text)}${more}</span></li>`;
}

function blockHtml(block: SheetBlock, pictures: PictureAddresses): string {
  switch (block.kind) {
    case 'text':
      if (block.tone === 'strong') return `<h3>${escaped(block.text)}</h3>`;
      return `<p${block.tone === 'quiet' ? ' class="quiet"' : ''}>${escaped(block.text)}</p>`;
    case 'facts': {
      const facts = block.facts.map(({ label, value }) => `<dt>${escaped(label)}</dt><dd>${escaped(value)}</dd>`);
      return `<dl>${facts.join('\n')}</dl>`;
    }
    case 'table':
      return tableHtml(block);
    case 'list':
      return `<ul>${block.items.map(listItemHtml).join('\n')}</ul>`;
    case 'drawing': {
      const caption = block.caption === undefined ? '' : `<figcaption>${escaped(block.caption)}</figcaption>`;
      return `<figure>${caption}${drawingSvg(block.drawing, pictures)}</figure>`;
    }
  }
}

/**
 * The record sheet as one HTML page: style and pictures inside, no script, nothing that is fetched; prints as the PDF does.
 *
 * @rule RS13
 */
export function sheetHtml(content: SheetContent, pictures: PictureAddresses, fonts: readonly PageFont[]): string {
  const { title, lines, verdict, sections, foot } = content;
  const head = [
    `<h1>${escaped(title)}</h1>`,
    ...lines.map((line) => `<p>${escaped(line)}</p>`),
    ...(verdict === null ? [] : [`<p class="verdict">${escaped(verdict)}</p>`]),
  ];
  const body = sections.map((section) => {
    const blocks = section.blocks.map((block) => blockHtml(block, pictures));
    return `<section>\n<h2>${escaped(section.title)}</h2>\n${blocks.join('\n')}\n</section>`;
  });
  // The page may fetch nothing, whatever stands in it.
  const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:";
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${fonts.map(fontFace).join('\n')}${sheetStyle}</style>
</head>
<body>
<main>
<header>
${head.join('\n')}
</header>
${body.join('\n')}
<footer>${escaped(foot)}</footer>
</main>
</body>
</html>
`;
}
