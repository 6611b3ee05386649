import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Encoding } from '../../core/contract/light';
import { createDecoder } from '../../core/node/decode-process';
import { linearisePhoto } from '../../core/photo/linearise';
import { type Candidate, findWindows } from '../../core/window/search/find-windows';
import type { PhotoTruth } from '../../samples/render/truth-file';
import { cornerDistance, overlapWithMark } from '../support/corner-distance';
import { goodPhotos, type MarkedWindow, photosAbsent, placeOf, whySkipped } from './shared-photos';
import { isLongRun, sampled } from '../support/long-run';

const samplesFolder = path.resolve('samples/photos');
const decoder = createDecoder({ processes: 2 });

afterAll(() => decoder.close());

const searchedBefore = new Map<string, Promise<Candidate[]>>();

/** Several tests look at one photo. */
function candidatesIn(file: string, encoding: Encoding): Promise<Candidate[]> {
  const search = async (): Promise<Candidate[]> => {
    const decoded = await decoder.decode(file, { regionPx: null });
    return findWindows(linearisePhoto(decoded, encoding, encoding === 'linear'));
  };
  const found = searchedBefore.get(file) ?? search();
  searchedBefore.set(file, found);
  return found;
}

const isSure = ({ confidence }: Candidate): boolean => confidence >= 0.5;

const samplePhotos = sampled(
  readdirSync(samplesFolder).filter((file) => !file.endsWith('.json')),
  3,
);
/** Nothing tells a black dial's edge from its black: its corners must be given. */
const isBlackDial = (file: string): boolean => file.includes('-black-');

describe('the invented samples', () => {
  it.each(samplePhotos.filter(isBlackDial))('[WN12] no outline is claimed for the black dial of %s', async (file) => {
    expect((await candidatesIn(path.join(samplesFolder, file), 'srgb')).filter(isSure)).toEqual([]);
  });

  it.each(samplePhotos.filter((file) => !isBlackDial(file)))(
    '[WN12] every window of %s is found to 0.5 % of its width, and nothing else',
    async (file) => {
      const { windows, photo } = JSON.parse(
        readFileSync(path.join(samplesFolder, `${file}.truth.json`), 'utf8'),
      ) as PhotoTruth;
      const found = (await candidatesIn(path.join(samplesFolder, file), photo.encoding as Encoding)).filter(isSure);
      expect(found).toHaveLength(windows.length);
      for (const { cornersPx, outline } of windows) {
        const errors = found.map(({ corners }) => cornerDistance(corners, cornersPx));
        const nearest = errors.indexOf(Math.min(...errors));
        expect(errors[nearest]).toBeLessThan(0.005);
        expect(found[nearest].outline).toBe(outline.kind === 'ellipse' ? 'ellipse' : 'rectangle');
      }
    },
  );
});

/** Marked to show where the windows are, but the bulbs are off. */
const isOff = (file: string): boolean => file.includes('_off');
/** Marks of rectangular windows follow their rim; those of round faces lie inside. */
const rectangular = [
  ['backlit/gauge_pair_led_dim.png', 'left dial'],
  ['backlit/gauge_pair_led_dim.png', 'right dial'],
  ['backlit/receiver_dial_led_angled.jpg', 'tuning meter'],
] as const;
/**
 * Sure ones, and one that a room as bright as it is leaves in doubt: the right VU comes fourth, at 0.01, its arc drawn to a
 * reflection on the bezel.
 */
const round = [
  ['backlit/flat_panel_lightguide.png', 'round panel, inscribed rectangle', 0.5],
  ['backlit/flat_panel_no_lightguide.png', 'round panel, inscribed rectangle', 0.5],
  ['backlit/vu_bulb_lit.jpg', 'left VU, part of the round face with the scale', 0.5],
  ['backlit/vu_bulb_lit.jpg', 'right VU, part of the round face with the scale', 0],
] as const;

/** The same picture again, turned or exposed otherwise: only in the long run. */
const isRepeat = (file: string): boolean =>
  /orientation_landscape_[2-8]|chart_600nm_(?!500ms)|dark_(?!100ms)/.test(file);
const searched = goodPhotos.filter(({ file }) => isLongRun || !isRepeat(file));

function known(file: string): { place: string; marks: readonly MarkedWindow[] } {
  const photo = goodPhotos.find((one) => one.file === file);
  if (!photo) throw new Error(`${file} is not listed`);
  return { place: placeOf(photo), marks: photo.lit_windows ?? [] };
}

describe.skipIf(photosAbsent)(`real photos${whySkipped}`, () => {
  it.each(rectangular)('[WN12] in %s the %s overlaps its mark by 0.85 and is sure', async (file, label) => {
    const { place, marks } = known(file);
    const mark = marks.find((one) => one.label === label)!.corners_TL_TR_BR_BL;
    const overlaps = (await candidatesIn(place, 'profile'))
      .filter(isSure)
      .map(({ corners }) => overlapWithMark(corners, mark).ofUnion);
    expect(Math.max(...overlaps)).toBeGreaterThanOrEqual(0.85);
  });

  it.each(round)('[WN16] in %s the mark of the %s lies inside a candidate of %f', async (file, label, least) => {
    const { place, marks } = known(file);
    const mark = marks.find((one) => one.label === label)!.corners_TL_TR_BR_BL;
    const inside = (await candidatesIn(place, 'profile'))
      .filter(({ confidence, outline }) => confidence >= least && outline === 'ellipse')
      .map(({ corners }) => overlapWithMark(corners, mark).ofMark);
    expect(Math.max(...inside)).toBeGreaterThan(0.999);
  });

  it.each(searched.map(({ file }) => file))('[WN18] nothing in %s is sure but lit windows', async (file) => {
    const { place, marks } = known(file);
    const lit = isOff(file) ? [] : marks;
    for (const { corners } of (await candidatesIn(place, 'profile')).filter(isSure)) {
      const overlaps = lit.map((mark) => overlapWithMark(corners, mark.corners_TL_TR_BR_BL).ofUnion);
      expect(Math.max(0, ...overlaps)).toBeGreaterThan(0);
    }
  });
});
