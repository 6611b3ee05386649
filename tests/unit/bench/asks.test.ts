import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import type { BenchVerb } from '../../../core/contract/bench';
import { benchErrorOf } from '../../../core/node/bench/bench-error';
import { readAsks } from '../../../core/node/bench/asks';
import { EngineStopped } from '../../../core/node/engine/run-task';
import { measureAsked } from '../../support/bench-asked';

const refusalOf = (verb: string, asks: unknown): AppError => {
  try {
    readAsks(verb as BenchVerb, asks);
  } catch (error) {
    if (error instanceof AppError) return error;
    throw error;
  }
  throw new Error('it was taken');
};

describe('readAsks', () => {
  const region = { column: 0, row: 0, width: 10, height: 10 };
  const { room, viewingDistanceMm, reference, ...referenceAsked } = measureAsked('r');
  void [room, viewingDistanceMm, reference];
  const right: [BenchVerb, unknown][] = [
    ['hello', {}],
    ['addSamples', { names: ['t60-filament.jpg'] }],
    ['removePhotos', { photos: [] }],
    ['find', { photo: 'p' }],
    ['measure', measureAsked('p')],
    ['measure', measureAsked('p', { cornersPx: null, sizeMm: null, shape: null })],
    [
      'measure',
      measureAsked('p', { shape: { kind: 'ellipse', cutMm: [0, 1, 2].map((i) => ({ xMm: i, yMm: i * i })) } }),
    ],
    ['pixels', { photo: 'p', mostSidePx: 1600, region: null }],
    ['pixels', { photo: 'p', mostSidePx: 1, region }],
    ['linear', { photo: 'p', region, mostPixels: 400_000 }],
    ['exportReading', { measure: measureAsked('p'), what: 'pictures' }],
    ['measure', { ...measureAsked('p'), helpers: { lampOff: 'q', flatField: null, printPhoto: 'p' } }],
    ['measure', { ...measureAsked('p'), reference: referenceAsked }],
    ['compare', { photos: ['p', 'q'], reference: null }],
    ['compare', { photos: [], reference: 'p' }],
    ['cancel', { call: 'c' }],
  ];
  it.each(right)('[BE4] takes %s as the contract has it', (verb, asks) => {
    expect(readAsks(verb, asks)).toEqual(asks);
  });

  const corners = measureAsked('p').window.cornersPx!;
  const wrong: [string, unknown, RegExp][] = [
    ['hello', null, /the call/],
    ['find', { photo: '' }, /photo/],
    ['find', { photo: 'p', path: '/etc/passwd' }, /path/],
    ['find', { photo: ['p'] }, /photo/],
    ['measure', measureAsked('p', { cornersPx: corners.slice(1) }), /window\.cornersPx/],
    ['measure', measureAsked('p', { cornersPx: [...corners.slice(1), [NaN, 1]] }), /window\.cornersPx\[3\]\[0\]/],
    ['measure', measureAsked('p', { cornersPx: [...corners.slice(1), [1e9, 1]] }), /window\.cornersPx\[3\]\[0\]/],
    ['measure', measureAsked('p', { sizeMm: { widthMm: 1, heightMm: 18 } }), /sizeMm\.widthMm/],
    ['measure', measureAsked('p', { leaveOut: [[{ xMm: 1, yMm: 1 }]] }), /leaveOut\[0\]/],
    ['measure', { ...measureAsked('p'), light: 'candle' }, /light/],
    ['measure', { ...measureAsked('p'), viewingDistanceMm: '500' }, /viewingDistanceMm/],
    ['pixels', { photo: 'p', mostSidePx: 1e9, region: null }, /mostSidePx/],
    ['pixels', { photo: 'p', mostSidePx: 10.5, region: null }, /mostSidePx/],
    ['pixels', { photo: 'p', mostSidePx: 10, region: { ...region, width: 0 } }, /region\.width/],
    ['linear', { photo: 'p', region: { ...region, column: -1 }, mostPixels: 10 }, /region\.column/],
    ['exportReading', { measure: measureAsked('p'), what: 'exe' }, /what/],
    ['measure', { ...measureAsked('p'), helpers: { lampOff: 'q' } }, /helpers\.flatField/],
    ['measure', { ...measureAsked('p'), reference: { ...referenceAsked, room: 'dark' } }, /reference/],
    ['compare', { photos: Array.from({ length: 401 }, () => 'p'), reference: null }, /photos/],
    ['compare', { photos: ['p'] }, /reference/],
    ['cancel', {}, /call/],
  ];
  it.each(wrong)('[BE4] refuses %s %j, and says where', (verb, asks, place) => {
    const { code, kind, message } = refusalOf(verb, asks);
    expect([code, kind]).toEqual(['ASKED_WRONGLY', 'usage']);
    expect(message).toMatch(place);
  });

  it.each(['open', '', 'constructor', '__proto__', 'toString'])('[BE4] knows no verb %j', (verb) => {
    expect(refusalOf(verb, {}).code).toBe('VERB_UNKNOWN');
  });
});

describe('benchErrorOf', () => {
  it('[BE5] keeps what a user can meet, and tells nothing else of a defect', () => {
    const met = new AppError('outline', 'CORNERS_CROSS', 'The corners cross.', 'Set them again.');
    expect(benchErrorOf(met)).toEqual({
      kind: 'outline',
      code: 'CORNERS_CROSS',
      message: 'The corners cross.',
      remedy: 'Set them again.',
    });
    const defect = benchErrorOf(new TypeError('x is undefined at /home/someone/photo.jpg'));
    expect(defect).toMatchObject({ kind: 'engine-stopped', code: 'DEFECT' });
    expect(JSON.stringify(defect)).not.toMatch(/undefined|home/);
    expect(benchErrorOf(new EngineStopped('code 1'))).toMatchObject({ kind: 'engine-stopped', code: 'ENGINE_STOPPED' });
  });
});
