import { exposureText } from '../../display/exposure-text';
import type { Figure } from '../../contract/figure';
import type { Gate, GateLevel } from '../../contract/gates';
import { pointText } from '../../display/point-text';
import type { ColourEntry, PhotoEntry, Reading, SampledPoints } from '../../contract/readings';
import type { ReadingRow } from './csv';
import { figureText, hatched, printable } from '../../display/figure-text';
import { spotsNote, spotRatioText, spotSizeText } from '../../display/spot-text';
import { footerLines, isLeftOut, saysNotBuilt } from './missing-figures';
import { rowNames } from './row-names';
import { summaryRows } from './table-summary';
import { hangingLines, padColumns, titleLine } from './wrap';

const labelWidth = 19;
const valueWidth = 8;

/** A row whose plus-minus signs stand under each other in every block: label, value ± uncertainty, unit, words. */
function figureLines(label: string, figure: Figure, unit: string, words = '', scale = 1): string[] {
  const head = `  ${label.padEnd(labelWidth)}`;
  if (figure.value === null || figure.plusMinus === null) {
    return hangingLines(`${head}${hatched.padStart(valueWidth)}  `, figure.reason ?? 'no reason given');
  }
  const { value, plusMinus } = figureText(figure.value * scale, figure.plusMinus * scale);
  const number = `${value.padStart(valueWidth)} ± ${plusMinus}`;
  const beside = words === '' ? unit : `${unit.padEnd(22)}${words}`;
  return hangingLines(`${head}${padColumns(number, valueWidth + 10)}`, beside).map((line) => line.trimEnd());
}

function heading(text: string): string[] {
  return ['', `  ${text}`];
}

/** The distance to the filament, or as long as nothing is compared, the colour in words. */
function colourLines(colour: ColourEntry): string[] {
  if (!isLeftOut(colour.toReferenceUv)) {
    return figureLines('Colour distance', colour.toReferenceUv, "10⁻³ u'v' to filament", colour.verdict, 1000);
  }
  if (colour.x.value === null) return figureLines('Colour', colour.x, '');
  return hangingLines(`  ${'Colour'.padEnd(labelWidth + valueWidth - 2)}`, colour.verdict);
}

function leadingLines(reading: Reading): string[] {
  const { evenness, redPrint, colour } = reading;
  const against = { reference: '% of the filament', typical: '% of a usual filament' };
  const redUnit = redPrint.indexAgainst === null ? '%' : against[redPrint.indexAgainst];
  return [
    ...figureLines('Evenness', evenness.score, 'of 100', evenness.words),
    ...(isLeftOut(redPrint.index) ? [] : figureLines('Red print', redPrint.index, redUnit, redPrint.words)),
    ...colourLines(colour),
  ];
}

const levelSigns: Readonly<Record<GateLevel, string>> = { refuse: '■ refused', warn: '▲ warning', note: '○ note   ' };

/** The figures that a gate is about, in words. */
function affectedText(gate: Gate): string {
  return gate.affects.map((group) => (group === 'redPrint' ? 'red print' : group)).join(', ');
}

function gateLines(gates: readonly Gate[]): string[] {
  if (gates.length === 0) return ['', '  Photo checks: all passed'];
  return [
    ...heading('Photo checks'),
    ...gates.flatMap((gate) => [
      ...hangingLines(`  ${levelSigns[gate.level]}  `, `${gate.message} (${gate.code}: ${affectedText(gate)})`),
      ...hangingLines('             → ', gate.remedy),
    ]),
  ];
}

function spotLines(reading: Reading): string[] {
  if (saysNotBuilt(reading.spotsReason)) return [];
  if (reading.spotsReason !== undefined) return ['', ...hangingLines(`  Spots  ${hatched}  `, reading.spotsReason)];
  if (reading.spots.length === 0) return ['', '  Spots: none'];
  const rows = reading.spots.map((spot, i) => {
    const x = figureText(spot.xMm, spot.plusMinusMm);
    const y = figureText(spot.yMm, spot.plusMinusMm);
    const cells = [
      `  ${String(i + 1).padStart(2)} ${spot.kind.padEnd(5)}`,
      `${x.value.padStart(8)} ± ${x.plusMinus.padEnd(4)}`,
      `${y.value.padStart(6)} ± ${y.plusMinus.padEnd(4)}`,
      spotSizeText(spot).padStart(6),
      `  ${spotRatioText(spot).padEnd(11)}`,
      spot.lampSide ?? '',
    ];
    return cells.join(' ').trimEnd();
  });
  return [
    '',
    '  Spots             x mm          y mm       size mm  × median    lamp side',
    ...rows,
    ...hangingLines('    ', spotsNote),
  ];
}

/** The nine points where they lie on the window, per cent of the brightest. */
function pointLines({ values, plusMinus }: SampledPoints): string[] {
  if (values === null || values.length !== 9) return [];
  return [0, 3, 6].map((from) => {
    const cells = values
      .slice(from, from + 3)
      .map((value, i) => (value === null ? hatched : pointText(value, plusMinus?.[from + i] ?? 0)).padEnd(10));
    const label = from === 0 ? 'where they lie, %' : '';
    return `  ${label.padEnd(labelWidth)}  ${cells.join('')}`.trimEnd();
  });
}

interface Row {
  readonly label: string;
  readonly figure: Figure;
  readonly unit: string;
  readonly scale?: number;
}

/**
 * A group of figures. Those that are missing for one reason share one line, so that the reason is read once;
 * those that are left out for all readings are told at the table's end.
 */
function groupLines(title: string, all: readonly Row[]): string[] {
  const rows = all.filter((row) => !isLeftOut(row.figure));
  if (rows.length === 0) return [];
  const given = rows.filter((row) => row.figure.value !== null);
  const reasons = new Map<string, string[]>();
  for (const { label, figure } of rows.filter((row) => row.figure.value === null)) {
    const reason = figure.reason ?? 'no reason given';
    reasons.set(reason, [...(reasons.get(reason) ?? []), label]);
  }
  return [
    ...heading(title),
    ...given.flatMap((row) => figureLines(row.label, row.figure, row.unit, '', row.scale)),
    ...[...reasons].flatMap(([reason, labels]) =>
      hangingLines(`  ${hatched.padEnd(labelWidth)}`, `${labels.join(', ')}: ${reason}`),
    ),
  ];
}

function restLines({ evenness, luminance, colour, redPrint }: Reading): string[] {
  return [
    ...groupLines('Evenness', [
      { label: 'to the filament', figure: evenness.toReference, unit: 'points' },
      { label: 'darkest/brightest', figure: evenness.minOverMax, unit: 'min over max' },
      { label: '5 % / 95 %', figure: evenness.p5OverP95, unit: 'of the cells' },
      { label: 'variation', figure: evenness.coefficientOfVariation, unit: '% of the mean', scale: 100 },
      { label: 'left / right', figure: evenness.leftOverRight, unit: '' },
      { label: 'top / bottom', figure: evenness.topOverBottom, unit: '' },
      { label: 'steepest', figure: evenness.steepestPercentPerMm, unit: '% a mm' },
      { label: 'nine points', figure: evenness.ninePoint.minOverMax, unit: 'darkest over brightest' },
    ]),
    ...pointLines(evenness.ninePoint),
    ...groupLines('Luminance', [
      { label: 'of the filament', figure: luminance.ofReference, unit: '% of the filament', scale: 100 },
    ]),
    ...groupLines('Colour of the glow', [
      { label: 'temperature', figure: colour.cctK, unit: 'K correlated' },
      { label: 'off the Planckian', figure: colour.duv, unit: 'Duv (+ greener, - pinker)' },
      { label: "u'", figure: colour.uPrime, unit: '' },
      { label: "v'", figure: colour.vPrime, unit: '' },
      { label: 'spread', figure: colour.spreadUv, unit: "10⁻³ u'v' within the window", scale: 1000 },
      { label: 'drift', figure: colour.gradientUvPer10Mm, unit: "10⁻³ u'v' in 10 mm", scale: 1000 },
      { label: 'difference', figure: colour.toReferenceDeltaE00, unit: 'ΔE00 to the filament' },
    ]),
    ...groupLines('Print', [
      { label: 'redness', figure: redPrint.redness, unit: 'of the red marks' },
      { label: 'light contrast', figure: redPrint.luminanceContrast, unit: 'of the red marks' },
      { label: 'contrast kept', figure: redPrint.darkContrastKept, unit: '% of that with the filament' },
      { label: 'seen at all', figure: redPrint.visibilityRatio, unit: 'times as well as with the filament' },
    ]),
  ];
}

function cameraText(photo: PhotoEntry): string {
  const { exposureS, fNumber, iso, make, model } = photo.camera;
  const time = exposureS === undefined ? [] : [exposureText(exposureS)];
  const rest = [...(fNumber === undefined ? [] : [`f/${fNumber}`]), ...(iso === undefined ? [] : [`ISO ${iso}`])];
  const camera = [make, model].filter((part) => part !== undefined).join(' ');
  return [camera, [...time, ...rest].join(' ')].filter((part) => part !== '').join(', ');
}

function factLines(reading: Reading): string[] {
  const { outline } = reading;
  const size = `${roughly(outline.widthMm)} x ${roughly(outline.heightMm)} mm${outline.sizeKnown ? '' : ' (assumed)'}`;
  const photos = reading.photos.flatMap((photo) => {
    const space = `${photo.colourSpace}${photo.colourSpaceAssumed ? ' (assumed)' : ''}`;
    const facts = [`${photo.widthPx} x ${photo.heightPx} px`, `${photo.format} ${photo.bitDepth} bit`, space];
    const camera = cameraText(photo);
    return hangingLines('  ', printable([photo.file, ...facts, ...(camera === '' ? [] : [camera])].join('; ')));
  });
  const view = `${roughly(outline.pxPerMm)} px a mm, ${Math.round(outline.tiltDeg)}° off the straight view`;
  const glow = `${Math.round(100 * outline.glowShare)} % of the ${outline.kind} is free glow`;
  return [...photos, ...hangingLines('  ', `${size}; ${view}; ${glow}`)];
}

const roughly = (value: number): string => String(Number(value.toPrecision(3)));

function readingLines(reading: Reading, role: ReadingRow['role'], name: string): string[] {
  const kind = role === 'reference' ? ' (filament reference)' : '';
  return [
    titleLine(`${name}${kind}`),
    ...factLines(reading),
    '',
    ...leadingLines(reading),
    ...gateLines(reading.gates),
    ...spotLines(reading),
    ...restLines(reading),
  ];
}

function rowLines({ role, entry }: ReadingRow, name: string): string[] {
  if (!('error' in entry)) return readingLines(entry, role, name);
  const { file, error } = entry;
  return [
    titleLine(name),
    ...(name === printable(file) ? [] : hangingLines('  ', printable(file))),
    ...hangingLines('  ■ not measured  ', printable(`${error.message} (${error.code})`)),
    ...hangingLines('  → ', error.remedy),
  ];
}

/**
 * The readings for a person: the leading figures first, then the photo checks with remedies, the spots, and the rest.
 * Every line keeps to 100 columns. Luminance in cd/m2 is left out on purpose: a factor of 2 either way misleads in a table.
 *
 * @rule CL8
 */
export function tableText(rows: readonly ReadingRow[]): string {
  const names = rowNames(rows);
  const blocks = rows.map((row, i) => rowLines(row, names[i]));
  if (rows.length > 1) blocks.push([titleLine(`Summary of ${rows.length}`), ...summaryRows(rows)]);
  const text = blocks.map((lines) => lines.join('\n')).join('\n\n');
  const footer = footerLines(
    rows.flatMap(({ entry }) => ('error' in entry ? [] : [entry])),
    text,
  );
  return `${text}\n${footer.length > 0 ? `\n${footer.join('\n')}\n` : ''}`;
}
