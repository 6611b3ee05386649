import { describe, expect, it } from 'vitest';
import type { PhotoOnBench } from '../../../../renderer/state/bench-state';
import type { Filing } from '../../../../renderer/state/filings';
import { askedWord } from '../../../../renderer/state/filings';
import {
  helpersOf,
  problemOfRow,
  proposedRole,
  proposeFiling,
  trialNameOf,
} from '../../../../renderer/state/propose-filing';
import { firstSettings } from '../../../../renderer/state/settings';
import { madeUpReading } from '../../cli/made-up';
import { larkfieldUnit } from '../../../support/unit-records';

const photo = (id: string, name: string, change: Partial<PhotoOnBench> = {}): PhotoOnBench => ({
  id,
  name,
  isSample: false,
  settings: firstSettings,
  status: { kind: 'measured' },
  reading: null,
  ...change,
});

const dark: Partial<PhotoOnBench> = {
  status: {
    kind: 'failed',
    error: { kind: 'outline', code: 'WINDOW_NOT_FOUND', message: 'no lit window', remedy: 'set the corners' },
  },
};
const none = (): null => null;

describe('what photos of the bench may become in a unit', () => {
  it('[SU4] follows what they are on the bench, then their names, then their darkness', () => {
    const helpers = { ...firstSettings.helpers, lampOff: 'off' };
    const photos = [
      photo('t2', 'IMG_2044.jpg', { settings: { ...firstSettings, helpers, reference: 'old' } }),
      photo('dark', 'IMG_2043.jpg', dark),
      photo('t1', 'warm-white_sanded.jpg'),
      photo('off', 'IMG_2041.jpg'),
      photo('named', 'scale lamps off.png'),
      photo('old', 'IMG_2040.jpg'),
    ];
    const rows = proposeFiling(photos, null, none, null);
    expect(rows.map(({ photo: id, role, trial }) => [id, role, trial])).toEqual([
      ['old', 'reference', ''],
      ['off', 'lamp-off', ''],
      ['dark', 'lamp-off', ''],
      ['named', 'lamp-off', ''],
      ['t2', 'trial', 'Trial 1'],
      ['t1', 'trial', 'warm white sanded'],
    ]);
    expect(rows.every(({ isWanted }) => isWanted)).toBe(true);
  });

  it('[SU4] takes "dark" in a name for the room where the window is lit', () => {
    const reading = madeUpReading();
    const roleOf = (name: string, change: Partial<PhotoOnBench>): string => proposedRole(photo('a', name, change), []);
    expect(roleOf('room-dark-warm-white.jpg', { reading })).toBe('trial');
    expect(roleOf('dark-filament.jpg', { reading })).toBe('reference');
    for (const name of ['room-dark.jpg', 'dark-filament.jpg']) expect(roleOf(name, dark)).toBe('lamp-off');
    expect(roleOf('scale, lamps off.jpg', { reading })).toBe('lamp-off');
  });

  it('[SU4] gives no trial a name that the unit or another row has', () => {
    const rows = proposeFiling([photo('b', 'Frosted.jpg'), photo('a', 'DSC00012.jpg')], larkfieldUnit(), none, null);
    expect(rows.map(({ trial }) => trial)).toEqual(['Trial 3', 'Frosted 2']);
    expect(
      new Set(proposeFiling([photo('b', 'x.jpg'), photo('a', 'x.png')], null, none, null).map((row) => row.trial)).size,
    ).toBe(2);
  });

  it('[SU4] photos of another window than the one in view are not proposed, unless they only help', () => {
    const sized = (widthMm: number, heightMm: number, sizeKnown = true): PhotoOnBench['reading'] => {
      const { outline, ...rest } = madeUpReading();
      return { ...rest, outline: { ...outline, widthMm, heightMm, sizeKnown } };
    };
    const scale = photo('a', 'try 1.jpg', { reading: sized(92, 18) });
    const photos = [
      scale,
      photo('b', 'try 2.jpg', { reading: sized(92.5, 18.2) }),
      // A search that came out a little otherwise, and no size yet.
      photo('c', 'try 3.jpg', { reading: sized(60, 12.3, false) }),
      photo('d', 'meter filament.jpg', { reading: sized(38, 38) }),
      photo('e', 'scale filament.jpg', { reading: sized(92, 18) }),
      photo('f', 'lamps off.jpg', { reading: sized(60, 45, false) }),
      photo('g', 'IMG_1.jpg', dark),
    ];
    const wanted = (inView: PhotoOnBench | null): string =>
      proposeFiling(photos, null, none, inView)
        .flatMap(({ photo: id, isWanted }) => (isWanted ? [id] : []))
        .sort()
        .join('');
    expect([wanted(scale), wanted(photos[3]), wanted(null)]).toEqual(['abcefg', 'dfg', 'abcdefg']);
  });

  it('[SU4] does not file again what lies in the unit as it is read, and does when it is read differently', () => {
    const unit = larkfieldUnit();
    const filing: Filing = {
      unit: unit.id,
      unitName: unit.name,
      window: 'scale',
      role: 'trial',
      trial: 'Frosted',
      asked: '',
    };
    const rowOf = (isChanged: boolean): unknown =>
      proposeFiling([photo('a', 'a.jpg')], unit, () => ({ ...filing, isChanged }), null)[0];
    expect(rowOf(false)).toEqual({ photo: 'a', isWanted: false, role: 'trial', trial: 'Frosted' });
    expect(rowOf(true)).toMatchObject({ isWanted: true });
  });

  it('[SU4] a camera’s number is no name of a trial', () => {
    for (const name of [
      'IMG_1234.JPG',
      'DSC00012.jpg',
      'PXL_20260531_180000123.jpg',
      '2026-05-31 18.00.jpg',
      'P1010012.jpg',
    ]) {
      expect([name, trialNameOf(name)]).toEqual([name, null]);
    }
    expect(trialNameOf('two LEDs, 8 mm.jpeg')).toBe('two LEDs, 8 mm');
  });

  it('[SU4] says what is wrong with a row: no name, no window found, two references', () => {
    const row = { photo: 'a', isWanted: true, role: 'trial', trial: ' ' } as const;
    expect(problemOfRow(row, [row], photo('a', 'a.jpg'))).toMatch(/name/);
    const failed = { ...row, trial: 'x' };
    expect(problemOfRow(failed, [failed], photo('a', 'a.jpg', dark))).toBe('no lit window');
    const references = ['a', 'b'].map((id) => ({ photo: id, isWanted: true, role: 'reference' as const, trial: '' }));
    expect(problemOfRow(references[0], references, photo('a', 'a.jpg'))).toMatch(/one photo/);
    expect(problemOfRow({ ...references[0], isWanted: false }, references, photo('a', 'a.jpg'))).toBeNull();
  });

  it('[SU4] trials are read with the last photo of each role that is filed', () => {
    const row = (id: string, role: 'lamp-off' | 'reference', isWanted = true) => ({
      photo: id,
      isWanted,
      role,
      trial: '',
    });
    expect(
      helpersOf([row('r', 'reference'), row('1', 'lamp-off'), row('2', 'lamp-off'), row('3', 'lamp-off', false)]),
    ).toEqual({
      reference: 'r',
      lampOff: '2',
      flatField: null,
      printPhoto: null,
    });
  });

  it('[SU4] the same question is the same word in whatever order its parts are written', () => {
    const { window, light, room, viewingDistanceMm, helpers } = firstSettings;
    const asked = { photo: 'a', window, light, room, viewingDistanceMm, helpers, reference: null };
    const other = { reference: null, helpers, viewingDistanceMm, room, light, window, photo: 'a' };
    expect(askedWord(asked)).toBe(askedWord(other));
    expect(askedWord({ ...asked, viewingDistanceMm: 501 })).not.toBe(askedWord(asked));
  });
});
