import type { Gate } from '../contract/gates';
import type { SpotEntry } from '../contract/readings';
import type { ListItem, SheetBlock, TableCell } from './sheet-content';
import { sidesOf, type ShownWindow } from './shown-window';
import { plainNumber } from './value-text';

const mm = (value: number): string => plainNumber(Math.round(10 * value) / 10);

function spotRow(spot: SpotEntry, number: number, side: string): TableCell[] {
  const ratio = `${spot.atLeast ? 'at least ' : ''}${plainNumber(Number(spot.ratioToGlow.toPrecision(3)))} ×`;
  const place = `${mm(spot.xMm)}, ${mm(spot.yMm)} ± ${mm(spot.plusMinusMm)}`;
  return [side, `${number} ${spot.kind === 'hot' ? 'too bright' : 'too dark'}`, place, mm(spot.diameterMm), ratio];
}

/** The numbered spots of both photos, as they are marked on the luminance maps. @rule RS4 */
export function spotTable(shown: ShownWindow): SheetBlock[] {
  const rows = sidesOf(shown).flatMap(({ side, measured }) =>
    measured.reading.spots.map((spot, i) => spotRow(spot, i + 1, side)),
  );
  if (rows.length === 0) return [];
  const columns = ['Photo', 'Spot', 'Place x, y in mm', 'Size, mm', 'Over the median of the glow'];
  return [{ kind: 'table', columns: columns.map((title) => ({ title })), rows }];
}

/** A check as a list shows it. */
export function checkItem({ level, message, remedy }: Gate, side: string): ListItem {
  return { mark: level, text: `${side}: ${message}`, remedy };
}

/** What the checks of both photos say against their figures, the weightiest first. @rule RS7 */
export function photoChecks(shown: ShownWindow): SheetBlock[] {
  const order = ['refuse', 'warn', 'note'];
  const items = sidesOf(shown)
    .flatMap(({ side, measured }) => measured.reading.gates.map((gate) => checkItem(gate, sideWord[side])))
    .sort((a, b) => order.indexOf(a.mark) - order.indexOf(b.mark));
  return items.length === 0 ? [] : [{ kind: 'list', items }];
}

const sideWord = { before: 'Before', after: 'After' } as const;
