import type { Gate } from '../contract/gates';
import type { SpotEntry } from '../contract/readings';
import { spotsNote, spotRatioText } from '../display/spot-text';
import type { ListItem, SheetBlock, TableCell } from './sheet-content';
import { sidesOf, type ShownWindow } from './shown-window';
import { plainNumber, sentence } from './value-text';

const mm = (value: number): string => plainNumber(Math.round(10 * value) / 10);

function spotRow(spot: SpotEntry, number: number, side: string): TableCell[] {
  const place = `${mm(spot.xMm)}, ${mm(spot.yMm)} ± ${mm(spot.plusMinusMm)}`;
  return [
    side,
    `${number} ${spot.kind === 'hot' ? 'too bright' : 'too dark'}`,
    place,
    mm(spot.diameterMm),
    `${spotRatioText(spot)} ×`,
  ];
}

/** The numbered spots of both photos, as they are marked on the luminance maps. @rule RS4 */
export function spotTable(shown: ShownWindow): SheetBlock[] {
  const rows = sidesOf(shown).flatMap(({ side, measured }) =>
    measured.reading.spots.map((spot, i) => spotRow(spot, i + 1, side)),
  );
  if (rows.length === 0) return [];
  const columns = ['Photo', 'Spot', 'Place x, y in mm', 'Size, mm', 'Over the median of the glow'];
  return [
    { kind: 'table', columns: columns.map((title) => ({ title })), rows },
    { kind: 'text', tone: 'quiet', text: spotsNote },
  ];
}

const order: readonly Gate['level'][] = ['refuse', 'warn', 'note'];

/** What the checks of both photos say against their figures, the weightiest first; what both say stands once. @rule RS7 */
export function photoChecks(shown: ShownWindow): SheetBlock[] {
  const sidesOfGate = new Map<string, { readonly gate: Gate; readonly sides: string[] }>();
  for (const { side, measured } of sidesOf(shown)) {
    for (const gate of measured.reading.gates) {
      const key = `${gate.level} ${gate.message} ${gate.remedy}`;
      const known = sidesOfGate.get(key) ?? { gate, sides: [] };
      known.sides.push(side);
      sidesOfGate.set(key, known);
    }
  }
  const items = [...sidesOfGate.values()]
    .sort((a, b) => order.indexOf(a.gate.level) - order.indexOf(b.gate.level))
    .map(({ gate: { level, message, remedy }, sides }): ListItem => {
      return { mark: level, text: sentence(`${sides.join(' and ')}: ${message}`), remedy };
    });
  return items.length === 0 ? [] : [{ kind: 'list', items }];
}
