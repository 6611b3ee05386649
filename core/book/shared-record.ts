import type { UnitPhoto, UnitRecord } from '../contract/unit-record';
import { unitRecord } from '../contract/unit-record';
import { withoutPersonal } from './without-personal';

/** What a photo that was made again is, in place of its original. */
export type SharedPhoto = Pick<UnitPhoto, 'sha256' | 'ending' | 'bytes' | 'exposureS' | 'fNumber' | 'iso'>;

function sharedPhotos(record: UnitRecord, made: ReadonlyMap<string, SharedPhoto>): UnitPhoto[] {
  return record.photos.flatMap((photo, i) => {
    const again = made.get(photo.sha256);
    // A file's name may be a person's.
    return again ? [{ ...again, ...photo, ...filesOf(again), name: `${photo.role} ${i + 1}.${again.ending}` }] : [];
  });
}

const filesOf = ({ sha256, ending, bytes }: SharedPhoto): SharedPhoto => ({ sha256, ending, bytes });

/**
 * A record to be given away: without personal data, names of files and earlier revisions, under an id of its own; its
 * photos are those that were made again. What was stated of a photo goes before what its file said.
 *
 * @param made  by the checksum of the original; a photo that is not among them is left out with its readings
 * @rule BK26
 */
export function sharedRecord(record: UnitRecord, id: string, made: ReadonlyMap<string, SharedPhoto>): UnitRecord {
  const readings = record.readings.flatMap((reading) => {
    const again = made.get(reading.photo);
    return again ? [{ ...reading, photo: again.sha256 }] : [];
  });
  const photos = sharedPhotos(record, made);
  const shared: UnitRecord = {
    ...withoutPersonal({ ...record, photos, readings }),
    id,
    revision: 1,
    undo: null,
    redo: null,
  };
  delete shared.restores;
  return unitRecord.parse(shared);
}
