import type { MeasuredWindow } from '../../contract/measure';
import type { ReadingRow } from './csv';
import { hatched, shortFigure } from './figure-text';

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

function figureCell(label: string, shown: string, words: string, reason: string | undefined): string {
  const beside = shown === hatched ? (reason ?? '') : words;
  return `<div><dt>${label}</dt><dd><b>${htmlText(shown)}</b> <i>${htmlText(beside)}</i></dd></div>`;
}

function entryHtml({ entry, pictures }: DemoSeries['entries'][number]): string {
  const { reading, role } = entry;
  const { evenness, redPrint, colour } = reading;
  const title = `${reading.name}, ${reading.window}${role === 'reference' ? ' (filament reference)' : ''}`;
  const images = ['window', 'luminance', 'unevenness', 'chromaticity'].map((kind) => {
    const source = address(`${pictures}.${kind}.png`);
    return `<a href="${source}"><img src="${source}" loading="lazy" alt="${htmlText(`${title}: ${kind}`)}"></a>`;
  });
  const checks = reading.gates.map(
    (gate) => `<li>${gate.level}: ${htmlText(gate.message)} <span>${htmlText(gate.remedy)}</span></li>`,
  );
  return [
    `<section><h3>${htmlText(title)}</h3><dl>`,
    figureCell('Evenness, of 100', shortFigure(evenness.score), evenness.words, evenness.score.reason),
    figureCell('Red print, %', shortFigure(redPrint.index), redPrint.words, redPrint.index.reason),
    figureCell(
      'Colour distance, 10⁻³ u′v′',
      shortFigure(colour.toReferenceUv, 1000),
      colour.verdict,
      colour.toReferenceUv.reason,
    ),
    `</dl><div class="pictures">${images.join('')}</div>`,
    checks.length > 0 ? `<ul>${checks.join('')}</ul>` : '',
    '</section>',
  ].join('\n');
}

const style = `body{margin:0;padding:24px 32px 64px;background:#202020;color:#f2f2f2;font:15px/1.45 system-ui,sans-serif}
h1{font-size:22px;margin:0 0 4px}h2{font-size:18px;margin:40px 0 0;border-top:1px solid #454545;padding-top:16px}
h3{font-size:16px;margin:28px 0 8px}p{max-width:70ch;color:#c6c6c6;margin:4px 0}a{color:#72c2b0}
dl{display:flex;flex-wrap:wrap;gap:8px 40px;margin:0 0 12px}dt{font-size:13px;color:#adadad}dd{margin:0;max-width:38ch}
b{font-size:22px;font-weight:400;font-variant-numeric:tabular-nums}i{font-family:Georgia,serif;color:#c6c6c6}
.pictures{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,520px),1fr));gap:12px;align-items:start}
img{width:100%;height:auto;display:block}ul{margin:12px 0 0;padding-left:20px;color:#c6c6c6;max-width:90ch}span{color:#adadad}`;

/** The page that shows a demonstration's readings and pictures together: no script, nothing from elsewhere. */
export function demoIndex(all: readonly DemoSeries[]): string {
  const parts = all.map(({ name, entries }) => {
    const links = ['json', 'csv', 'txt'].map((kind) => `<a href="${address(`${name}.readings.${kind}`)}">${kind}</a>`);
    return `<h2>${htmlText(name)}</h2><p>Readings: ${links.join(', ')}</p>${entries.map(entryHtml).join('')}`;
  });
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self' file:; style-src 'unsafe-inline'">
<title>Evendial: samples measured</title><style>${style}</style></head><body>
<h1>Evendial: samples measured</h1>
<p>The units are invented and their photos rendered. Figures are estimates from a camera, not from a calibrated photometer;
every one stands with its plus-minus (k = 2) or the reason why it cannot be given.</p>
${parts.join('\n')}
</body></html>
`;
}
