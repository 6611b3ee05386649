import type { Figure } from '../contract/figure';
import type { Reading } from '../contract/readings';
import { stepNoteFor } from '../display/step-note';
import type { SheetBlock, TableCell } from './sheet-content';
import type { ShownWindow } from './shown-window';
import { figureCell, sentence } from './value-text';

interface FigureRow {
  readonly label: (after: Reading | undefined) => string;
  readonly of: (reading: Reading) => Figure;
  readonly scale?: number;
  /** What the filament's own photo has by definition, not by measurement. */
  readonly ofReference?: string;
  readonly words?: (reading: Reading) => string;
}

/** The three leading figures first, then luminance and colour temperature; luminances in cd/m² never stand on a sheet. */
const rows: readonly FigureRow[] = [
  {
    label: () => 'Evenness, 0 to 100',
    of: ({ evenness }) => evenness.score,
    words: ({ evenness }) => evenness.words,
  },
  {
    label: (after) =>
      `Red print, % of ${after?.redPrint.indexAgainst === 'typical' ? 'a usual filament lamp' : 'the filament'}`,
    of: ({ redPrint }) => redPrint.index,
    ofReference: '100',
    words: ({ redPrint }) => redPrint.words,
  },
  {
    label: () => "Colour distance, 0.001 u'v'",
    of: ({ colour }) => colour.toReferenceUv,
    scale: 1000,
    ofReference: '0',
    words: ({ colour }) => colour.verdict,
  },
  {
    label: () => 'Luminance, % of the filament',
    of: ({ luminance }) => luminance.ofReference,
    scale: 100,
    ofReference: '100',
  },
  { label: () => 'Colour temperature of the glow, K', of: ({ colour }) => colour.cctK },
];

const isAgainstReference = (of: FigureRow['of'], reading: Reading): boolean =>
  of(reading) !== reading.redPrint.index || reading.redPrint.indexAgainst === 'reference';

function rowFor({ label, of, scale, ofReference, words }: FigureRow, { before, after }: ShownWindow): TableCell[] {
  const reading = after?.reading;
  // What is compared with a usual lamp has the filament's own figure before.
  const isDefinition = reading !== undefined && isAgainstReference(of, reading);
  const first =
    before === null ? '–' : isDefinition && ofReference ? ofReference : figureCell(of(before.reading), scale);
  // Words go with their figure.
  const isGiven = reading !== undefined && of(reading).value !== null;
  const own = reading ? figureCell(of(reading), scale) : '–';
  const said = isGiven ? words?.(reading) : reading === undefined && before ? words?.(before.reading) : undefined;
  return [label(reading), first, own, said ?? ''];
}

/** Why figures are missing, those with one reason together. */
function missingText({ before, after }: ShownWindow): string[] {
  const byReason = new Map<string, string[]>();
  for (const [side, measured] of [
    ['before', before],
    ['after', after],
  ] as const) {
    if (measured === null) continue;
    for (const { label, of, ofReference } of rows) {
      const { value, reason } = of(measured.reading);
      if (value !== null || reason === undefined || (side === 'before' && ofReference !== undefined)) continue;
      const what = `${label(after?.reading).replace(/,.*/, '')} ${side}`;
      byReason.set(reason, [...(byReason.get(reason) ?? []), what]);
    }
  }
  return [...byReason].map(([reason, what]) => sentence(`${what.join(', ')}: ${reason}`));
}

/**
 * The leading figures before and after, each with its plus-minus, and the words for the one that stays in the unit; a
 * figure that the photo cannot support is a dash with its reason beneath.
 *
 * @rule RS7
 */
export function leadingFigures(shown: ShownWindow): SheetBlock[] {
  if (shown.before === null && shown.after === null) return [];
  const missing = missingText(shown);
  const steps = stepNoteFor((shown.after ?? shown.before)?.reading.colour.verdict ?? '');
  return [
    {
      kind: 'table',
      columns: [
        { title: '' },
        { title: 'Before', align: 'figure' },
        { title: 'After', align: 'figure', tone: 'strong' },
        { title: 'In words', tone: 'words' },
      ],
      rows: rows.map((row) => rowFor(row, shown)),
    },
    ...(steps === null ? [] : [{ kind: 'text' as const, text: steps, tone: 'quiet' as const }]),
    ...missing.map((text): SheetBlock => ({ kind: 'text', text, tone: 'quiet' })),
  ];
}
