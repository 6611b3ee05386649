import { exposureText } from '../display/exposure-text';
import { luminanceScale, unevennessScale } from '../display/panels';
import type { Reading } from '../contract/readings';
import type { UnitRecord, UnitReading } from '../contract/unit-record';
import type { Drawing } from './drawing';
import { leadingFigures } from './leading-figures';
import { layOutPictures, scaleText } from './picture-layout';
import { profileChart } from './profile-chart';
import type { SheetBlock, SheetSection } from './sheet-content';
import { sidesOf, sizeOf, type ShownWindow } from './shown-window';
import { photoChecks, spotTable } from './spots-and-checks';
import { figureCell, joined, plainNumber, sentence } from './value-text';
import { windowPictures } from './window-pictures';

function exposureOf(reading: Reading): string | undefined {
  const camera = reading.photos[0]?.camera;
  return joined(
    camera?.exposureS === undefined ? undefined : exposureText(camera.exposureS),
    camera?.fNumber === undefined ? undefined : `f/${plainNumber(camera.fNumber)}`,
    camera?.iso === undefined ? undefined : `ISO ${plainNumber(camera.iso)}`,
  );
}

/** Two photos of different exposure do not show which window is the brighter one. */
function exposureNote({ before, after }: ShownWindow): string[] {
  if (before === null || after === null) return [];
  const [first, second] = [exposureOf(before.reading), exposureOf(after.reading)];
  if (first !== undefined && first === second) return [];
  return ['The two photos were not taken with one exposure: how bright each looks says nothing of the luminance.'];
}

/** Names are of any length: they stand above the pictures, not beside each other over them. */
function whatIsShown({ before, after }: ShownWindow): string[] {
  return [
    before ? 'Before: the filament.' : 'Before: no photo of the filament.',
    after ? sentence(`After: ${after.reading.name}`) : 'After: no photo of a chosen trial.',
  ];
}

function pictureBlocks(shown: ShownWindow): SheetBlock[] {
  const sides = sidesOf(shown);
  if (sides.length === 0 || sides.some(({ measured }) => measured.maps === null)) return [];
  const captions = (what: string): { before: string; after: string } => ({
    before: `${what} before`,
    after: `${what} after`,
  });
  const { name } = shown.window;
  const { scale } = layOutPictures(sizeOf(shown), sides.length);
  const drawn = (drawing: Drawing | null, caption: string): SheetBlock[] =>
    drawing ? [{ kind: 'drawing', caption, drawing }] : [];
  const photo = windowPictures(shown, {
    kind: 'photo',
    title: `${name} as photographed, straightened`,
    captions: { before: 'Before', after: 'After' },
  });
  const luminance = windowPictures(shown, {
    kind: 'luminance',
    title: `Luminance of ${name}`,
    captions: captions('Luminance'),
    scale: luminanceScale,
  });
  const unevenness = windowPictures(shown, {
    kind: 'unevenness',
    title: `Visible unevenness of ${name}`,
    captions: captions('Visible unevenness'),
    scale: unevennessScale,
  });
  return [
    ...drawn(
      photo,
      [...whatIsShown(shown), `Drawn ${scaleText(scale)}, straightened.`, ...exposureNote(shown)].join(' '),
    ),
    ...leadingFigures(shown),
    ...drawn(
      profileChart(shown),
      'Luminance through the middle, over the median of the glow. Solid: after; dotted: before.',
    ),
    ...drawn(
      luminance,
      'Luminance over the median of the glow, one scale for both; lines a quarter stop apart; hatched: print and border, never scored. Ring: too bright, square: too dark.',
    ),
    ...drawn(unevenness, 'Unevenness as the eye sees it, one scale for both: grey is not seen; hatched: no value.'),
  ];
}

/** The figures that the record keeps, when no photo could be measured now. */
function keptFigures(readings: readonly UnitReading[]): SheetBlock[] {
  if (readings.length === 0) return [];
  const rows = readings.map((one) => [
    one.trial === null ? 'Before, filament' : `After, ${one.trial}`,
    figureCell(one.evenness),
    figureCell(one.redPrint),
    figureCell(one.toReferenceUv, 1000),
  ]);
  return [
    {
      kind: 'table',
      columns: [
        { title: 'Photo' },
        { title: 'Evenness', align: 'figure' },
        { title: 'Red print, %', align: 'figure' },
        { title: "Colour, 0.001 u'v'", align: 'figure' },
      ],
      rows,
    },
    {
      kind: 'text',
      tone: 'quiet',
      text: `As the record keeps them, measured with ${[...new Set(readings.map(({ program }) => program))].join(', ')}: the photos could not be measured for this sheet.`,
    },
  ];
}

const notMeasured: SheetBlock = { kind: 'text', tone: 'quiet', text: 'No photo of it could be measured.' };

/** A window before and after: photos, figures, profiles, maps, spots, what the checks say. @rule RS1, RS3, RS7 */
export function windowSection(shown: ShownWindow, record: UnitRecord): SheetSection {
  const { name, widthMm, heightMm } = shown.window;
  const title = `${name}, ${plainNumber(widthMm)} × ${plainNumber(heightMm)} mm`;
  const kept = record.readings.filter(
    (one) => one.window === name && (one.trial === null || one.trial === record.chosen?.trial),
  );
  const blocks =
    sidesOf(shown).length > 0
      ? [...pictureBlocks(shown), ...spotTable(shown), ...photoChecks(shown)]
      : keptFigures(kept);
  const without = shown.before === null && shown.after !== null;
  const gaps: SheetBlock[] = without
    ? [{ kind: 'text', tone: 'quiet', text: 'There is no photo with the filament lamps to compare with.' }]
    : [];
  return { title, blocks: blocks.length === 0 ? [notMeasured] : [...blocks, ...gaps] };
}
