import { addPhoto, addTrial, addWindow, chooseTrial } from '../../core/book/edits';
import { newUnit } from '../../core/book/revisions';
import type { UnitPhoto, UnitRecord, UnitTrial } from '../../core/contract/unit-record';

export const savedAt = '2026-05-31T18:00:00.000Z';

/** A photo that nobody took. */
export function photoEntry(digit: string, entry: Partial<UnitPhoto> = {}): UnitPhoto {
  return { sha256: digit.repeat(64), ending: 'jpg', name: `${digit}.jpg`, bytes: 7, role: 'other', ...entry };
}

const bare: UnitTrial = {
  name: 'Bare, 8 mm',
  light: 'warm-white',
  lamps: [
    { name: 'left', positionMm: [23, 9, 8], tiltDeg: [5, -3], currentMa: 10, type: 'wide angle', viewingAngleDeg: 120 },
    { name: 'right', positionMm: [69, 9, 8], on: true },
  ],
  strings: [{ name: 'both', lamps: ['left', 'right'], resistorOhm: 470, measuredMa: 9.6 }],
  diffuser: 'tracing paper',
};

/** The invented tuner with two windows, a reference, two trials of several lamps, and a choice. */
export function larkfieldUnit(): UnitRecord {
  const empty = newUnit('larkfield-t-60-1', 'Larkfield T-60', savedAt);
  const described: UnitRecord = {
    ...empty,
    owner: 'the owner',
    serialNumber: 'S-0042',
    photography: { room: 'dark', viewingDistanceMm: 600 },
    before: { lamp: { base: 'E10', ratedV: 8, countOnSupply: 2 }, supply: { kind: 'AC', hz: 50, voltsWithLamp: 7.6 } },
    parts: [{ name: 'LED', count: 4, lot: 'B7' }],
  };
  const scale = addWindow(described, { name: 'scale', widthMm: 92, heightMm: 18, print: 'dark' });
  const meter = addWindow(scale, { name: 'meter', widthMm: 38, heightMm: 38, outline: { kind: 'ellipse' } });
  const first: UnitRecord = { ...meter, trials: [bare] };
  const second = addTrial(first, { name: 'Frosted', like: bare.name });
  const corners = {
    scale: [
      [10, 10],
      [102, 10],
      [102, 28],
      [10, 28],
    ] as [number, number][],
  };
  const photos = [
    photoEntry('a', { role: 'reference', corners, exposureS: 0.1 }),
    photoEntry('b', { role: 'trial', trial: bare.name, corners }),
    photoEntry('c', { role: 'trial', trial: 'Frosted' }),
    photoEntry('d', { role: 'lamp-off' }),
    photoEntry('e', { role: 'lamp-off', trial: 'Frosted' }),
  ];
  return chooseTrial(photos.reduce(addPhoto, second), 'Frosted', 'no hot spot left');
}
