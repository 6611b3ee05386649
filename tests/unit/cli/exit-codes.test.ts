import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import type { Gate } from '../../../core/contract/gates';
import type { FailedWindow, MeasureJob, MeasureResult } from '../../../core/contract/measure';
import { exitCodeOfResult, worstExitCode } from '../../../core/node/cli/exit-codes';
import { callersFolder } from '../../../core/node/cli/folders';
import { documentOf, namesOfFailed } from '../../../core/node/cli/readings-document';
import { errorOfSent, sentErrorOf } from '../../../core/node/engine/sent-error';
import { madeUpMaps, madeUpWindow } from './made-up';

const maps = madeUpMaps(3, 2);
const refusal: Gate = {
  code: 'PHOTO_TOO_DARK',
  level: 'refuse',
  message: 'm',
  remedy: 'r',
  value: null,
  affects: ['evenness'],
};
const failed = (kind: FailedWindow['kind'], name = kind as string, window: string | null = null): FailedWindow => ({
  role: 'trial',
  name,
  window,
  kind,
  failed: { file: `${kind}.jpg`, error: { code: 'C', message: 'm', remedy: 'r' } },
});

describe('worstExitCode', () => {
  it('[CL4] is 1 when there is a 1, else the highest, else 0', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 6 })), (codes) => {
        const expected = codes.includes(1) ? 1 : codes.reduce((high, code) => (code > high ? code : high), 0);
        return worstExitCode(codes) === expected;
      }),
    );
  });
});

describe('exitCodeOfResult', () => {
  const good = madeUpWindow({}, maps);
  const refused = madeUpWindow({ gates: [refusal] }, maps);
  const cases: [string, MeasureResult['windows'], boolean, number][] = [
    ['good photos', [good], true, 0],
    ['a refusal that nobody asked to be strict about', [good, refused], false, 0],
    ['a refusal with --strict', [good, refused], true, 5],
    ['a photo that cannot be read', [failed('photo'), good], false, 3],
    ['impossible corners above an unreadable photo', [failed('outline'), failed('photo')], false, 4],
    ['a strict refusal above impossible corners', [failed('outline'), refused], true, 5],
  ];
  it.each(cases)('[CL4] for %s', (_, windows, strict, code) => {
    expect(exitCodeOfResult({ windows }, strict)).toBe(code);
  });
});

describe('documentOf', () => {
  const request = { room: 'dark', viewingDistanceMm: 500 } as const;
  const job = { name: 'n', light: 'unknown', windows: [] } as const;
  const photo = { file: 'f', path: '/f', encoding: 'profile', encodingStated: false, exposure: {} } as const;

  it('[CL11] keeps the order, puts a failed photo at its place and the reference apart, and adds the maps', () => {
    const [first, second] = [madeUpWindow({ name: 'one' }, maps), madeUpWindow({ name: 'two' }, maps)];
    const reference = { ...madeUpWindow({ name: 'reference' }, maps), role: 'reference' as const };
    const paths = { glowLuminance: 'm/a.csv', chromaticity: 'm/b.csv', printMask: 'm/c.png' };
    const document = documentOf(
      { ...request, jobs: [{ ...job, role: 'reference', photo }] },
      { windows: [reference, first, failed('photo'), second] },
      new Map([[second, paths]]),
    );
    expect(document.readings).toEqual([first.reading, failed('photo').failed, { ...second.reading, maps: paths }]);
    expect(document.reference).toEqual([reference.reading]);
    expect(Object.keys(document)).toEqual(['format', 'version', 'readings', 'reference']);
  });

  it('[CL11] has no reference when none was asked for', () => {
    const document = documentOf({ ...request, jobs: [{ ...job, role: 'trial', photo }] }, { windows: [] }, new Map());
    expect(document).toEqual({ format: 'evendial-readings', version: 1, readings: [] });
  });
});

describe('namesOfFailed', () => {
  it('[CL14] names the trial of a failed photo, and its window when the corners of one of several failed', () => {
    const photo = { file: 'f', path: '/f', encoding: 'profile', encodingStated: false, exposure: {} } as const;
    const windows = ['left', 'right'].map((name) => ({ spec: { name } })) as unknown as MeasureJob['windows'];
    const job = (name: string): MeasureJob => ({ role: 'trial', name, photo, light: 'unknown', windows });
    const [unread, second] = [failed('photo', 'one'), failed('outline', 'two', 'right')];
    const request = { room: 'dark', viewingDistanceMm: 500, jobs: [job('one'), job('two')] } as const;
    const result = { windows: [unread, madeUpWindow({}, maps), second] };
    expect([...namesOfFailed(request, result)]).toEqual([
      [unread.failed, 'one'],
      [second.failed, 'two, right'],
    ]);
    const closeUps = { ...request, jobs: windows.map((window) => ({ ...job('two'), windows: [window] })) };
    expect([...namesOfFailed(closeUps, { windows: [second] }).values()]).toEqual(['two, right']);
  });
});

describe('errors between threads', () => {
  it('[CL10] stay what they are: a user error with its remedy, a defect with its stack', () => {
    const known = new AppError('photo', 'PHOTO_BROKEN', 'it is broken', 'Export it again.');
    const back = errorOfSent(structuredClone(sentErrorOf(known)));
    expect(back).toBeInstanceOf(AppError);
    expect(back).toMatchObject({
      kind: 'photo',
      code: 'PHOTO_BROKEN',
      message: 'it is broken',
      remedy: 'Export it again.',
    });
    const defect = new RangeError('shapes differ');
    const returned = errorOfSent(structuredClone(sentErrorOf(defect)));
    expect(returned).not.toBeInstanceOf(AppError);
    expect(returned.stack).toBe(defect.stack);
  });
});

describe('callersFolder', () => {
  it('[CL3] is INIT_CWD under npm run, else the current folder', () => {
    expect([callersFolder({ INIT_CWD: '/bench' }, '/project'), callersFolder({}, '/project')]).toEqual([
      '/bench',
      '/project',
    ]);
  });
});
