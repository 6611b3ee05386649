import { describe, expect, it } from 'vitest';
import { applyMatrix } from '../../../core/colour/matrix3';
import type { WitnessPatch } from '../../../core/contract/measure';
import { tieColour, tieLuminance } from '../../../core/preparation/comparable';
import { measureWitness } from '../../../core/preparation/witness';
import { camera, drawScale } from './draw-scale';

const polygon = [
  [30, 30],
  [90, 30],
  [90, 80],
].map(([column, row]) => ({ column, row }));

function patchOf(found: WitnessPatch | string): WitnessPatch {
  if (typeof found === 'string') throw new Error(found);
  return found;
}

describe('measureWitness', () => {
  it('[CP4] is the mean light of the patch, whatever is beside it', () => {
    const { linear } = drawScale({ light: (xMm) => (xMm < 8 ? 0.3 : 0.9), print: 1, noise: 0.1 });
    const { xyz, relUncertainty } = patchOf(measureWitness(linear, polygon));
    // 1475 pixels of 10 % noise: 0.3 % of the mean; three times that.
    expect(xyz[1]).toBeWithin(0.3, 0.003);
    // White is D65.
    expect(xyz[0] / xyz[1]).toBeWithin(0.95046, 1e-4);
    // 16 pixels count as one sample.
    expect(relUncertainty).toBeWithin(0.1 / Math.sqrt(1475 / 16), 0.002);
  });

  it.each([
    [/overexposed/, { clipped: true }, polygon],
    [/black/, { light: () => 0 }, polygon],
    [/beyond the photo/, {}, [...polygon, { column: 900, row: 30 }]],
    [/fewer than 64 pixels/, {}, polygon.map(({ column, row }) => ({ column: 30 + column / 20, row: 30 + row / 20 }))],
  ])('[CP4] tells why not: %s', (reason, changes, points) => {
    const { linear } = drawScale({ light: () => 0.3, print: 1, ...changes });
    expect(measureWitness(linear, points)).toMatch(reason);
  });
});

const patch = (xyz: WitnessPatch['xyz']): WitnessPatch => ({ xyz, relUncertainty: 0.01 });
const untold = { whiteBalance: 'auto' } as const;
const first = { camera: untold, witness: patch([0.19, 0.2, 0.22]) };
const second = { camera: untold, witness: patch([0.5, 0.4, 0.2]) };

describe('two photos', () => {
  it('[CP5] known exposures tie the luminances', () => {
    const shorter = { camera: { ...camera, exposureS: 0.05 }, witness: null };
    expect(tieLuminance({ camera, witness: null }, shorter)).toMatchObject({ by: 'exposure', scale: 2 });
  });

  it('[CP5] else the patch in both does: it comes out equally bright, and its noise counts', () => {
    const tie = tieLuminance(first, second);
    if (tie.by !== 'witness') throw new Error('not tied');
    expect(tie.scale * second.witness.xyz[1]).toBeWithin(first.witness.xyz[1], 1e-9);
    expect(tie.relUncertainty).toBeWithin(Math.hypot(0.03, 0.01, 0.01), 1e-9);
  });

  it('[CP5] nothing known and no patch: not comparable, with the reason', () => {
    const bare = { camera: untold, witness: null };
    expect(tieLuminance(first, bare)).toMatchObject({ by: null, reason: expect.stringMatching(/witness/) });
    expect(tieColour(first, bare)).toMatchObject({ by: null, verdict: 'unknown' });
    expect(tieColour({ camera, witness: null }, { ...bare, camera: { ...camera, model: 'Two' } })).toMatchObject({
      by: null,
      verdict: 'differs',
    });
  });

  it('[CP5] equal settings tie the colours, else the patch, which comes out in one colour', () => {
    expect(tieColour({ camera, witness: null }, { camera, witness: null })).toEqual({ by: 'settings' });
    const tie = tieColour(first, second);
    if (tie.by !== 'witness') throw new Error('not tied');
    const [x, y, z] = applyMatrix(tie.toFirst, second.witness.xyz);
    const [wantedX, wantedY, wantedZ] = first.witness.xyz;
    expect(x / y).toBeWithin(wantedX / wantedY, 1e-9);
    expect(z / y).toBeWithin(wantedZ / wantedY, 1e-9);
  });
});
