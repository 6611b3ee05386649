import { describe, expect, it } from 'vitest';
import type { LinearPhoto } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import { homographyFromCorners, photoPointOf, windowPointOf } from '../../../core/window/homography';
import { confidenceOf } from '../../../core/window/search/confidence';
import { evidenceFor } from '../../../core/window/search/evidence';
import { findWindows } from '../../../core/window/search/find-windows';
import { cornersOf, type FittedOutline, placesOf } from '../../../core/window/search/hypotheses';
import { photoSampler } from '../../../core/window/search/light-grid';
import { drawnPhoto } from '../../support/drawn-photo';

const [widthMm, heightMm] = [120, 14];
/** A scale so long that a short side is a twentieth of its outline. */
const scaleCorners = [
  { column: 81.3, row: 142.8 },
  { column: 873.6, row: 118.2 },
  { column: 871.9, row: 211.4 },
  { column: 78.2, row: 231.5 },
] as unknown as Corners;
const homography = homographyFromCorners(scaleCorners, widthMm, heightMm);

/** The scale with figures and a pointer, its glow multiplied by `fallOff` of the place along it. */
function scalePhoto(fallOff: (xMm: number) => number): LinearPhoto {
  return drawnPhoto(960, 350, (column, row) => {
    const { xMm, yMm } = windowPointOf(homography, { column, row });
    const outside = Math.max(-xMm, xMm - widthMm, -yMm, yMm - heightMm);
    const isPrint = (xMm % 11 > 4 && xMm % 11 < 6 && yMm > 3 && yMm < 6) || Math.abs(xMm - 77) < 0.4;
    const light = outside > 0 ? 0.004 : (isPrint ? 0.01 : 0.4) * fallOff(xMm) + 0.004;
    return [light, 0.62 * light, 0.21 * light];
  });
}

const evenPhoto = scalePhoto(() => 1);

/** How sure the outline is whose left and right sides lie at these places along the scale. */
function confidenceBetween(photo: LinearPhoto, leftMm: number, rightMm: number): number {
  const corners = [
    { xMm: leftMm, yMm: 0 },
    { xMm: rightMm, yMm: 0 },
    { xMm: rightMm, yMm: heightMm },
    { xMm: leftMm, yMm: heightMm },
  ].map((point) => photoPointOf(homography, point));
  return confidenceIn(photo, { outline: 'rectangle', corners });
}

function confidenceIn(photo: LinearPhoto, fitted: FittedOutline): number {
  return confidenceOf(evidenceFor(photoSampler(photo), cornersOf(fitted), placesOf(fitted), photo), fitted, 0);
}

describe('one side of a long scale', () => {
  it('[WN18] the true outline is sure', () => {
    expect(confidenceBetween(evenPhoto, 0, widthMm)).toBeGreaterThan(0.9);
  });

  it.each([
    ['left', 'inside', 9, widthMm],
    ['left', 'outside', -4, widthMm],
    ['right', 'inside', 0, 108],
    ['right', 'outside', 0, 124],
    ['right', 'on the pointer', 0, 77],
  ])(
    '[WN17, WN18] with its %s side %s the outline is not sure, however well the long sides fit',
    (_, __, left, right) => {
      expect(confidenceBetween(evenPhoto, left, right)).toBeLessThan(0.5);
    },
  );

  it('[WN18] an end where the light dies away without an edge is not claimed', () => {
    const dying = scalePhoto((xMm) => Math.exp(-((Math.max(0, xMm - 40) / 22) ** 2)));
    expect(findWindows(dying).filter(({ confidence }) => confidence >= 0.5)).toEqual([]);
  });

  it('[WN18] an end at a fifth of the brightest, but with its edge, is no doubt', () => {
    const darkEnd = scalePhoto((xMm) => 1 - 0.8 * (xMm / widthMm));
    expect(confidenceBetween(darkEnd, 0, widthMm)).toBeGreaterThan(0.9);
    expect(findWindows(darkEnd)[0].confidence).toBeGreaterThan(0.9);
  });
});

describe('one eighth of a rim', () => {
  const ellipse = { centre: { column: 300, row: 230 }, a: 1 / 140 ** 2, b: 0, c: 1 / 120 ** 2 };
  const face: FittedOutline = { outline: 'ellipse', ellipse, direction: [1, 0], covered: false };
  /** A face that shines on to the right between two rows as if there were no rim. */
  const facePhoto = (firstRow: number, lastRow: number) =>
    drawnPhoto(600, 460, (column, row) => {
      const isInside = ((column - 300) / 140) ** 2 + ((row - 230) / 120) ** 2 < 1;
      const runsOn = column > 300 && column < 500 && row > firstRow && row < lastRow;
      const light = isInside || runsOn ? 0.4 : 0.004;
      return [light, 0.7 * light, 0.3 * light];
    });

  it('[WN17, WN18] a face that runs on over an eighth of its rim is not sure; whole, or with a notch, it is', () => {
    expect(confidenceIn(facePhoto(0, 0), face)).toBeGreaterThan(0.9);
    expect(confidenceIn(facePhoto(225, 237), face)).toBeGreaterThan(0.5);
    expect(confidenceIn(facePhoto(232, 330), face)).toBeLessThan(0.5);
  });
});
