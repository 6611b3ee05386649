import { describe, expect, it } from 'vitest';
import { readPhotoNotes } from '../../../core/photo/metadata';
import { findToneMapping, toneMappingHints } from '../../../core/photo/tone-mapping';
import { seededRandom } from '../../support/seeded-random';
import { drawJpegWithNotes } from './exif-drawn';

const tag = { software: 0x0131, customRendered: 0xa401, sceneCaptureType: 0xa406 };
const textBytes = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
const silent = { customRendered: NaN, sceneCaptureType: NaN, software: undefined };
const { hdr, gainMap, portrait, night, panorama, own, software } = toneMappingHints;

describe('findToneMapping', () => {
  it.each([
    [0, []],
    [1, [own]],
    [2, [hdr]],
    [3, [hdr]],
    [4, []],
    [5, [own]],
    [6, [panorama]],
    [7, [portrait]],
    [8, [portrait]],
    [37, [own]],
  ])('[CK3] CustomRendered %d of a whole JPEG', (value, expected) => {
    const bytes = drawJpegWithNotes([], [{ tag: tag.customRendered, short: value }]);
    expect(readPhotoNotes(bytes).toneMappingHints).toEqual(expected);
  });

  it.each([
    [0, []],
    [1, []],
    [2, [portrait]],
    [3, [night]],
    [4, []],
  ])('[CK3] SceneCaptureType %d of a whole JPEG', (value, expected) => {
    const bytes = drawJpegWithNotes([], [{ tag: tag.sceneCaptureType, short: value }]);
    expect(readPhotoNotes(bytes).toneMappingHints).toEqual(expected);
  });

  it.each([
    ['HDR+ 1.0.345', [software]],
    ['Camera 5 NightMode', [software]],
    ['portrait-engine', [software]],
    ['Knightly Raw 3', []],
    ['Drawn Firmware 7', []],
  ])('[CK3] software %s', (name, expected) => {
    const bytes = drawJpegWithNotes([{ tag: tag.software, text: name }], []);
    expect(readPhotoNotes(bytes).toneMappingHints).toEqual(expected);
  });

  it.each([
    ['a name in XMP', textBytes('xmlns:hdrgm="http://ns.example.com/hdr-gain-map/1.0/"')],
    ['an auxiliary picture in capitals', textBytes('aux:HDRGainMap')],
    ["the standard's name in a JPEG segment", textBytes('urn:iso:std:iso:ts:21496:-1\0')],
    ['a tone-map item, version 2', [...textBytes('infe'), 2, 0, 0, 0, 0, 9, 0, 0, ...textBytes('tmap')]],
    ['a tone-map item, version 3', [...textBytes('infe'), 3, 0, 0, 0, 0, 0, 0, 9, 0, 0, ...textBytes('tmap')]],
  ])('[CK3] a gain map by %s, wherever it stands', (_, mark) => {
    const random = seededRandom(5);
    const bytes = Uint8Array.from({ length: 5000 }, () => 256 * random());
    expect(findToneMapping(silent, bytes)).toEqual([]);
    for (const at of [0, 2311, bytes.length - mark.length]) {
      const marked = bytes.slice();
      marked.set(mark, at);
      expect(findToneMapping(silent, marked)).toEqual([gainMap]);
    }
  });

  it('[CK3] near misses say nothing: a word cut off at the end, the item type alone', () => {
    expect(findToneMapping(silent, Uint8Array.from(textBytes('..HDRGainMa')))).toEqual([]);
    expect(findToneMapping(silent, Uint8Array.from(textBytes('infe....tmap')))).toEqual([]);
    expect(findToneMapping(silent, new Uint8Array(0))).toEqual([]);
  });

  it('[CK3] of a large file the first 4 and the last 8 MiB are searched', () => {
    const bytes = new Uint8Array(2 ** 24);
    const mark = textBytes('hdrgainmap');
    const marked = (at: number): Uint8Array => {
      bytes.fill(0);
      bytes.set(mark, at);
      return bytes;
    };
    const found = [2 ** 22 - 1, 2 ** 22 + 5, 2 ** 23, 2 ** 24 - mark.length].map((at) =>
      findToneMapping(silent, marked(at)),
    );
    expect(found).toEqual([[gainMap], [], [gainMap], [gainMap]]);
  });

  it('[CK3] says each hint once, in a fixed order', () => {
    const notes = { customRendered: 8, sceneCaptureType: 2, software: 'Portrait 2' };
    expect(findToneMapping(notes, Uint8Array.from(textBytes('hdrgainmap')))).toEqual([gainMap, portrait, software]);
  });
});
