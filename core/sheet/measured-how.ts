import { exposureText } from '../display/exposure-text';
import type { PhotoEntry } from '../contract/readings';
import type { FailedWindow, MeasuredWindow } from '../contract/measure';
import type { UnitPhoto, UnitRecord } from '../contract/unit-record';
import { limits } from './cautions';
import { filledColumns } from './record-facts';
import type { SheetBlock, SheetSection, TableCell } from './sheet-content';
import { dayText, factsOf, joined, plainNumber, sentence, withUnit } from './value-text';

const roleWords: Readonly<Record<UnitPhoto['role'], string>> = {
  reference: 'filament reference',
  trial: 'trial',
  'lamp-off': 'lamps off',
  'flat-field': 'flat field',
  'print-photo': 'print photo',
  other: 'other',
};

function exposureOf(photo: UnitPhoto, entry: PhotoEntry | undefined): string {
  const exposureS = photo.exposureS ?? entry?.camera.exposureS;
  const fNumber = photo.fNumber ?? entry?.camera.fNumber;
  const iso = photo.iso ?? entry?.camera.iso;
  return (
    joined(
      exposureS === undefined ? undefined : exposureText(exposureS),
      fNumber === undefined ? undefined : `f/${plainNumber(fNumber)}`,
      iso === undefined ? undefined : `ISO ${plainNumber(iso)}`,
    ) ?? ''
  );
}

function photoRow(photo: UnitPhoto, entry: PhotoEntry | undefined, isShared: boolean): TableCell[] {
  const { camera } = entry ?? {};
  return [
    photo.trial === undefined ? roleWords[photo.role] : `${roleWords[photo.role]}: ${photo.trial}`,
    photo.name,
    exposureOf(photo, entry),
    [camera?.make, camera?.model].filter((word) => word !== undefined).join(' '),
    camera === undefined || camera.whiteBalance === 'unknown' ? '' : camera.whiteBalance,
    camera?.takenAt === undefined || isShared ? '' : dayText(camera.takenAt),
    photo.sha256.slice(0, 12),
    photo.notes ?? '',
  ];
}

const photoTitles = ['Photo', 'File', 'Exposure', 'Camera', 'White balance', 'Taken', 'SHA-256 begins', 'Notes'];

function failedBlocks(failed: readonly FailedWindow[]): SheetBlock[] {
  if (failed.length === 0) return [];
  const items = failed.map(({ name, window, failed: { error } }) => ({
    mark: 'refuse' as const,
    text: sentence(`${joined(name, window) ?? ''}: ${error.message}`),
    remedy: error.remedy,
  }));
  return [{ kind: 'list', items }];
}

export interface MeasuredHow {
  readonly record: UnitRecord;
  readonly measured: readonly MeasuredWindow[];
  readonly failed: readonly FailedWindow[];
  readonly program: string;
  /** Without the days on which photos were taken. */
  readonly isShared: boolean;
}

/** Photos with their exposures and checksums, what could not be measured, the limits of the method, versions. @rule RS9 */
export function measuredHow({ record, measured, failed, program, isShared }: MeasuredHow): SheetSection[] {
  const entries = measured.flatMap(({ reading }) => reading.photos);
  const rows = record.photos.map((photo) =>
    photoRow(
      photo,
      entries.find(({ sha256 }) => sha256 === photo.sha256),
      isShared,
    ),
  );
  const facts = factsOf([
    ['Room', record.photography?.room],
    ['Looked at from', withUnit(record.photography?.viewingDistanceMm, 'mm')],
  ]);
  return [
    {
      title: 'How it was measured',
      blocks: [
        ...(facts.length === 0 ? [] : [{ kind: 'facts' as const, facts }]),
        ...(rows.length === 0 ? [] : [filledColumns(photoTitles, rows)]),
        ...failedBlocks(failed),
        ...limits.map((text): SheetBlock => ({ kind: 'text', text })),
      ],
    },
    {
      title: 'Versions',
      blocks: [
        {
          kind: 'facts',
          facts: factsOf([
            ['Program', program],
            ['Record', `unit ${record.id}, revision ${record.revision}, format ${record.version}`],
            ['Saved', `${dayText(record.savedAt)}, ${record.savedAt.slice(11, 16)} UTC`],
          ]),
        },
      ],
    },
  ];
}
