import type { UnitLamp, UnitTrial } from '../contract/unit-record';
import type { SheetBlock } from './sheet-content';

/** As it stands inside a sentence; AM stays AM. */
const inSentence = (label: string): string =>
  /^[A-Z][^A-Z]/.test(label) ? `${label[0].toLowerCase()}${label.slice(1)}` : label;

/** What matters for the next time, or for somebody's safety, and was left open: said, so that it is not taken for none. */
export function notRecordedBlock(labels: readonly string[]): SheetBlock[] {
  if (labels.length === 0) return [];
  return [{ kind: 'text', tone: 'quiet', text: `Not recorded: ${labels.map(inSentence).join('; ')}.` }];
}

interface Named {
  readonly name: string;
}

/** `Viewing angle of left, right`; without names where none of them has it. */
function gapOf<One extends Named>(label: string, all: readonly One[], has: (one: One) => boolean): string[] {
  const without = all.filter((one) => !has(one));
  if (without.length === 0) return [];
  return [without.length === all.length ? label : `${label} of ${without.map(({ name }) => name).join(', ')}`];
}

const lampGaps = (lamps: readonly UnitLamp[]): string[] => [
  ...gapOf('Lamp type', lamps, ({ type }) => type !== undefined),
  ...gapOf('Viewing angle', lamps, ({ viewingAngleDeg }) => viewingAngleDeg !== undefined),
  ...gapOf('Place', lamps, ({ positionMm }) => positionMm !== undefined),
];

/** What somebody who does it again would miss of a trial. @rule RS15 */
export function gapsOfTrial({ lamps = [], strings = [], diffuser, shade, supplyVolts }: UnitTrial): string[] {
  return [
    ...(lamps.length === 0 ? ['Lamps'] : lampGaps(lamps)),
    ...(diffuser === undefined ? ['Diffuser'] : []),
    ...(shade === undefined ? ['Shade'] : []),
    ...(supplyVolts === undefined ? ['Supply under this load'] : []),
    ...(strings.length === 0
      ? ['Resistors']
      : [
          ...gapOf('Resistor', strings, ({ resistorOhm }) => resistorOhm !== undefined),
          ...gapOf('Rating of the resistor', strings, ({ resistorRatedW }) => resistorRatedW !== undefined),
          ...gapOf('Measured current', strings, ({ measuredMa }) => measuredMa !== undefined),
        ]),
  ];
}
