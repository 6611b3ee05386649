import { describe, expect, it } from 'vitest';
import type { Pair } from '../../../core/contract/comparison';
import {
  amberGlow,
  compareDrawn,
  filamentGlow,
  whiteGlow,
  type DrawnLight,
  type DrawnPhoto,
} from '../../support/drawn-trials';
import { isLongRun } from '../../support/long-run';

/** A few seconds on an idle machine. */
const patienceMs = isLongRun ? 900_000 : 180_000;

const white: DrawnLight = { kind: 'warm-white', level: 0.22, ...whiteGlow, spot: 1.5 };
const reference: DrawnPhoto = {
  name: 'reference',
  light: { kind: 'filament', level: 0.2, ...filamentGlow, spot: 1.2 },
  seed: 2,
};

/** Two scenes by default, ten pairs each; twenty in the long run. Their spots, places and cameras differ. */
const scenes = Array.from({ length: isLongRun ? 20 : 2 }, (_, i) => ({
  seed: 10 * i,
  light: { ...white, spot: 1.25 + 0.11 * ((7 * i) % 20), spotXMm: 8 + ((5 * i) % 14) },
  curve: (i % 4) / 5,
}));

/** One scene five times: other noise each time, moved corners, and for the last two another exposure. */
function again({ seed, light, curve }: (typeof scenes)[number]): DrawnPhoto[] {
  return [1, 1, 1, 0.6, 1.5].map((exposure, i) => ({
    name: `photo ${i + 1}`,
    light,
    curve,
    exposure,
    seed: seed + i + 3,
    movedPx: 6,
  }));
}

const compared = ['evenness', 'redPrint', 'colour', 'luminance'] as const;

describe('the same scene photographed again', () => {
  it('[PR1, PR3] is one group in every ranking, and hardly ever told apart', { timeout: patienceMs }, async () => {
    const pairs: Pair[] = [];
    for (const scene of scenes) {
      const result = await compareDrawn(again(scene), scene === scenes[0] ? reference : null);
      pairs.push(...result.pairs);
      if (scene !== scenes[0]) continue;
      for (const figure of ['evenness', 'redPrint', 'colour'] as const) {
        const groups = result.ranking[figure];
        expect([figure, groups.length <= 1]).toEqual([figure, true]);
      }
      expect(result.ranking.evenness[0]).toHaveLength(5);
    }
    expect(pairs).toHaveLength(10 * scenes.length);
    for (const figure of compared) {
      const wrong = pairs.filter((pair) => pair[figure].toldApart);
      // Of equal scenes at most one in twenty may be told apart.
      expect([figure, wrong.length <= pairs.length / 20]).toEqual([figure, true]);
    }
  });
});

/** From even to spotty, and from red print well seen to lost: differences far above their plus-minus. */
function series(camera: Pick<DrawnPhoto, 'model' | 'curve'>): DrawnPhoto[] {
  const lights: [string, DrawnLight][] = [
    ['shade', { ...white, spot: 1.06 }],
    ['one far', { ...white, spot: 1.6 }],
    ['one near', { ...white, spot: 3.4 }],
    ['amber', { ...white, kind: 'narrow-amber', ...amberGlow, spot: 2.2 }],
  ];
  return lights.map(([name, light], i) => ({ name, light, seed: 40 + i, movedPx: 3, ...camera }));
}

describe('a series from best to worst', () => {
  it(
    '[PR1, PR3] comes out in its order, and phones with other tone curves agree on all that is told apart',
    { timeout: patienceMs },
    async () => {
      const [plain, bent] = await Promise.all([
        compareDrawn(series({ model: 'One', curve: 0 })),
        compareDrawn(series({ model: 'Two', curve: 0.6 })),
      ]);
      expect(plain.ranking.evenness).toEqual([['shade'], ['one far'], ['amber'], ['one near']]);
      for (const figure of compared) {
        plain.pairs.forEach((pair, i) => {
          const [one, two] = [pair[figure], bent.pairs[i][figure]];
          if (!one.toldApart || !two.toldApart) return;
          const signs = [one, two].map(({ difference }) => Math.sign(difference.value ?? 0));
          expect([figure, pair.a, pair.b, signs[1]]).toEqual([figure, pair.a, pair.b, signs[0]]);
        });
      }
      const amber = bent.pairs.filter(({ b }) => b === 'amber').map(({ redPrint }) => redPrint);
      expect(amber).toHaveLength(3);
      expect(amber.filter(({ toldApart, difference }) => toldApart && (difference.value ?? 0) < 0)).toEqual(amber);
    },
  );
});
