import type { Figure } from '../../contract/figure';
import type { MeasuredWindow } from '../../contract/measure';
import type { Reading } from '../../contract/readings';
import type { ReadingRow } from './csv';
import { seriesTitles } from './demo-titles';
import { hatched, shortFigure } from '../../display/figure-text';
import { isLeftOut, notBuiltParts } from './missing-figures';
import { hasSeveralWindows, rowNames } from './row-names';
import { checkCounts } from './table-summary';

export interface DemoSeries {
  readonly name: string;
  /** Each reading, with the path of its pictures up to their kind. */
  readonly entries: readonly { readonly entry: MeasuredWindow; readonly pictures: string }[];
  readonly rows: readonly ReadingRow[];
}

/** Text for HTML: nothing in it can become markup. */
export function htmlText(text: string): string {
  const names: Readonly<Record<string, string>> = {
    '&': '&amp;',
    '<': '&lt;',
    '>': '&gt;',
    '"': '&quot;',
    "'": '&#39;',
  };
  return text.replace(/[&<>"']/g, (sign) => names[sign]);
}

function address(path: string): string {
  return htmlText(path.split('/').map(encodeURIComponent).join('/'));
}

const refusedOr = (reason: string | undefined, words: string, given: boolean): string =>
  htmlText(given ? words : (reason ?? ''));

function figureCell(label: string, shown: string, beside: string): string {
  return `<div><dt>${label}</dt><dd><b>${htmlText(shown)}</b> <i>${beside}</i></dd></div>`;
}

/** The leading figures; what is not built yet is left to the line at the page's end. */
function figureCells({ evenness, redPrint, colour }: Reading): string[] {
  const cell = (label: string, of: Figure, words: string, scale = 1): string =>
    figureCell(label, shortFigure(of, scale), refusedOr(of.reason, words, of.value !== null));
  const inWords = colour.x.value === null ? hatched : colour.verdict;
  return [
    cell('Evenness, of 100', evenness.score, evenness.words),
    ...(isLeftOut(redPrint.index) ? [] : [cell('Red print, %', redPrint.index, redPrint.words)]),
    isLeftOut(colour.toReferenceUv)
      ? figureCell('Colour', inWords, refusedOr(colour.x.reason, '', colour.x.value !== null))
      : cell('Colour distance, 10⁻³ u′v′', colour.toReferenceUv, colour.verdict, 1000),
  ];
}

const pictureKinds = ['window', 'luminance', 'unevenness', 'chromaticity', 'print-mask'];

function entryHtml({ entry, pictures }: DemoSeries['entries'][number]): string {
  const { reading, role } = entry;
  const title = `${reading.name}, ${reading.window}${role === 'reference' ? ' (filament reference)' : ''}`;
  const images = pictureKinds.map((kind) => {
    const source = address(`${pictures}.${kind}.png`);
    const what = kind === 'print-mask' ? 'print found: red print red, dark print green' : kind;
    return `<a href="${source}"><img src="${source}" loading="lazy" alt="${htmlText(`${title}: ${what}`)}"></a>`;
  });
  const checks = reading.gates.map(
    (gate) => `<li>${gate.level}: ${htmlText(gate.message)} <span>${htmlText(gate.remedy)}</span></li>`,
  );
  return [
    `<section id="${anchor(pictures)}"><h3>${htmlText(title)}</h3><dl>`,
    ...figureCells(reading),
    `</dl><div class="pictures">${images.join('')}</div>`,
    checks.length > 0 ? `<ul>${checks.join('')}</ul>` : '',
    '</section>',
  ].join('\n');
}

/** A place on the page: letters and digits only, so that any name will do. */
function anchor(pictures: string): string {
  return `r-${[...pictures].map((sign) => (/[a-z0-9]/i.test(sign) ? sign : `-${sign.codePointAt(0) ?? 0}-`)).join('')}`;
}

function contentsRow(name: string, { entry, pictures }: DemoSeries['entries'][number]): string {
  const { reading, role } = entry;
  const { evenness, colour } = reading;
  const cells = [
    shortFigure(evenness.score),
    evenness.score.value === null ? '' : evenness.words,
    colour.x.value === null ? hatched : colour.verdict,
    checkCounts(reading),
  ];
  const link = `<a href="#${anchor(pictures)}">${htmlText(name)}</a>${role === 'reference' ? ' (filament reference)' : ''}`;
  return `<tr><td>${link}</td>${cells.map((cell) => `<td>${htmlText(cell)}</td>`).join('')}</tr>`;
}

const contentsHead = ['', 'Evenness', 'in words', 'Colour of the glow', 'Checks']
  .map((head) => `<th scope="col">${head}</th>`)
  .join('');

/** Everything at a glance, each name a link to its pictures. */
function contentsHtml(all: readonly DemoSeries[]): string {
  const bodies = all.map(({ name, entries }) => {
    const rows = entries.map(({ entry: { role, reading } }): ReadingRow => ({ role, entry: reading }));
    const names = rowNames(rows, hasSeveralWindows(rows));
    const head = `<tr><th colspan="5" scope="colgroup">${htmlText(seriesTitles[name]?.title ?? name)}</th></tr>`;
    return `<tbody>${head}${entries.map((entry, i) => contentsRow(names[i], entry)).join('\n')}</tbody>`;
  });
  return `<table><thead><tr>${contentsHead}</tr></thead>${bodies.join('\n')}</table>
<p>■ a check refuses a figure, ▲ warns. ${hatched} = no figure; the reason stands with the reading below.</p>`;
}

const style = `body{margin:0;padding:24px 32px 64px;background:#202020;color:#f2f2f2;font:15px/1.45 system-ui,sans-serif}
h1{font-size:22px;margin:0 0 4px}h2{font-size:18px;margin:40px 0 0;border-top:1px solid #454545;padding-top:16px}
h3{font-size:16px;margin:28px 0 8px}p{max-width:70ch;color:#c6c6c6;margin:4px 0}a{color:#72c2b0}
dl{display:flex;flex-wrap:wrap;gap:8px 40px;margin:0 0 12px}dt{font-size:13px;color:#adadad}dd{margin:0;max-width:38ch}
b{font-size:20px;font-weight:400;font-variant-numeric:tabular-nums}i{font-style:normal;color:#c6c6c6}
table{border-collapse:collapse;margin:16px 0 8px}th,td{text-align:left;padding:3px 20px 3px 0;vertical-align:top;font-weight:400}
thead th,tbody th{color:#adadad;font-size:13px}tbody th{padding-top:14px;color:#f2f2f2}td{font-variant-numeric:tabular-nums}td:nth-child(2),td:nth-child(5){white-space:nowrap}
.pictures{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,520px),1fr));gap:12px;align-items:start}
img{width:100%;height:auto;display:block}ul{margin:12px 0 0;padding-left:20px;color:#c6c6c6;max-width:90ch}span{color:#adadad}`;

/** The page that shows a demonstration's readings and pictures together: no script, nothing from elsewhere. */
export function demoIndex(all: readonly DemoSeries[]): string {
  const parts = all.map(({ name, entries }) => {
    const links = ['json', 'csv', 'txt'].map((kind) => `<a href="${address(`${name}.readings.${kind}`)}">${kind}</a>`);
    const { title, about } = seriesTitles[name] ?? { title: name, about: '' };
    const files = `<p>${htmlText(about)}</p><p>Readings: ${links.join(', ')}</p>`;
    return `<h2>${htmlText(title)}</h2>${files}${entries.map(entryHtml).join('')}`;
  });
  const missing = notBuiltParts(all.flatMap(({ entries }) => entries.map(({ entry }) => entry.reading)));
  const later = missing.length > 0 ? `<p>Not built yet: ${htmlText(missing.join('; '))}.</p>` : '';
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self' file:; style-src 'unsafe-inline'">
<title>Evendial: samples measured</title><style>${style}</style></head><body>
<h1>Evendial: samples measured</h1>
<p>The units are invented and their photos rendered. Figures are estimates from a camera, not from a calibrated photometer;
every one stands with its plus-minus (k = 2) or the reason why it cannot be given.</p>
${contentsHtml(all)}${later}
${parts.join('\n')}
</body></html>
`;
}
