import type { Match } from '../contract/comparison';
import type { SheetSection, TableCell } from './sheet-content';
import { figureCell } from './value-text';

function matchRow({ windows, luminanceRatio, brighter, deltaUv }: Match): TableCell[] {
  return [
    windows.join(' and '),
    figureCell(luminanceRatio, 100),
    brighter ?? (luminanceRatio.value === null ? '' : 'cannot be told'),
    figureCell(deltaUv, 1000),
  ];
}

/** How alike the windows are in the chosen trial. @rule RS8 */
export function matchBlocks(match: readonly Match[], chosen: string | undefined): SheetSection | null {
  const rows = match.filter(({ photoOrTrial }) => photoOrTrial === chosen).map(matchRow);
  if (rows.length === 0) return null;
  return {
    title: 'How alike the windows are',
    blocks: [
      {
        kind: 'table',
        columns: [
          { title: 'Windows' },
          { title: 'Dimmer, % of the brighter', align: 'figure' },
          { title: 'Brighter' },
          { title: "Colour distance, 0.001 u'v'", align: 'figure' },
        ],
        rows,
      },
    ],
  };
}
