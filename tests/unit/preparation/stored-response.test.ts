import { describe, expect, it } from 'vitest';
import { readResponse, type StoredResponse } from '../../../core/contract/response';
import type { RecoveredResponse } from '../../../core/photo/response/recover';
import { responseMismatch, storedResponseOf, type ResponseScope } from '../../../core/preparation/stored-response';

const recovered: RecoveredResponse = {
  response: { red: [0, 0.2, 0.8], green: [0, 0.1, 0.9], blue: [0, 0, 1], isLinear: false },
  leftOutError: 0.02,
  plainError: 0.2,
  apartFromLogResponse: 0.01,
  borrowing: [],
};
const scope: ResponseScope = {
  camera: { make: 'Orbel', model: 'Q2', iso: 100, whiteBalance: 'manual' },
  facts: { pictureStyle: 'Contrast 0' },
  colourSpace: 'sRGB',
};
const stored = storedResponseOf(recovered, scope, 4)!;
const refusal = (document: unknown): unknown => {
  try {
    return readResponse(JSON.stringify(document), 'q2.json');
  } catch (error) {
    return error;
  }
};

describe('storedResponseOf', () => {
  it('[BR9] what is written is read again', () => {
    expect(readResponse(JSON.stringify(stored), 'q2.json')).toEqual(stored);
  });

  it('[BR9] a camera without model or ISO cannot be told again: nothing is kept', () => {
    expect(storedResponseOf(recovered, { ...scope, camera: { model: 'Q2', whiteBalance: 'auto' } }, 4)).toBeNull();
    expect(storedResponseOf(recovered, { ...scope, camera: { iso: 100, whiteBalance: 'auto' } }, 4)).toBeNull();
  });
});

describe('responseMismatch', () => {
  it('[BR9] photos of the same camera and settings agree', () => expect(responseMismatch(stored, scope)).toBeNull());

  it.each<[RegExp, Partial<ResponseScope>]>([
    [/does not tell its camera/, { camera: { whiteBalance: 'manual', iso: 100 } }],
    [/is that of Q2, the photo is from Q3/, { camera: { ...scope.camera, model: 'Q3' } }],
    [/at ISO 100, the photo is at ISO 400/, { camera: { ...scope.camera, iso: 400 } }],
    [/picture style differs/, { facts: { pictureStyle: 'Contrast 1' } }],
    [/picture style differs/, { facts: {} }],
    [/in sRGB, the photo is in Display P3/, { colourSpace: 'Display P3' }],
  ])('[BR9] %s', (reason, changed) => expect(responseMismatch(stored, { ...scope, ...changed })).toMatch(reason));
});

describe('readResponse', () => {
  it.each<[string, string, (file: StoredResponse) => unknown]>([
    ['RESPONSE_INVALID', 'curves.red', (file) => ({ ...file, curves: { ...file.curves, red: [0, 0.5] } })],
    ['RESPONSE_INVALID', 'camera.lens: unknown key', (file) => ({ ...file, camera: { ...file.camera, lens: 'x' } })],
    ['RESPONSE_INVALID', 'format', (file) => ({ ...file, format: 'evendial-series' })],
    ['RESPONSE_TOO_NEW', 'version 2', (file) => ({ ...file, version: 2 })],
  ])('[BR9] %s names %s', (code, place, change) => {
    expect(refusal(change(stored))).toMatchObject({
      kind: 'usage',
      code,
      message: expect.stringContaining(place) as string,
    });
  });
});
