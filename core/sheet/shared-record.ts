import { withoutPersonal } from '../book/without-personal';
import type { UnitRecord } from '../contract/unit-record';

/** The record that a shared sheet is made from: without personal data, and without the names of photo files. @rule RS10 */
export function sharedRecord(record: UnitRecord): UnitRecord {
  const shared = withoutPersonal(record);
  return { ...shared, photos: shared.photos.map((photo, i) => ({ ...photo, name: `photo ${i + 1}` })) };
}

/** What a shared sheet says of itself. */
export const sharedText =
  'A copy to be shared: owner, serial number, notes, sources of parts, names and days of photos, and texts that speak of ' +
  'the owner or the serial number are left out. Its pictures are made anew and carry no place, camera or other data.';
