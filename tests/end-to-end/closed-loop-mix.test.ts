import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { adviseMix, type MixRequest } from '../../core/advice/lamp-mix';
import { lumensPerCandela, type Led } from '../../core/advice/led';
import type { ToldGlow } from '../../core/advice/tried-distance';
import { xyFromXyz, type Uv1976 } from '../../core/colour/chromaticity';
import { whiteE } from '../../core/colour/constants';
import { dominantWavelengthOf } from '../../core/colour/dominant-wavelength';
import { stepsFromUvDistance, uvDistance } from '../../core/colour/steps';
import type { LitWindow } from '../../samples/render/index';
import type { Lamp } from '../../samples/render/light/lamp';
import { transmission } from '../../samples/render/light/materials';
import { type LightName, lights, times, tristimulus, type Xyz } from '../../samples/render/light/spectra';
import { uvPrime } from '../../samples/render/truth/colour';
import { chance, type Chance, photographed, type PhotographedWindow, windowOf } from '../support/advice/scenes';
import { isLongRun, patienceMs } from '../support/long-run';

/** Loops of these seeds were never looked at while the mix was made. */
const firstSeed = 72_000;
/** In the short run two colours, white and a colour, and white and two colours. */
const seeds = (isLongRun ? Array.from({ length: 48 }, (_, i) => i) : [0, 2, 5]).map((i) => firstSeed + i);
const mostTries = 3;

interface MixKind {
  readonly light: string;
  readonly parts: readonly LightName[];
  /** Of the white in the light wanted, where the others are a quarter to three quarters. */
  readonly whiteShare?: readonly [number, number];
}

/** The last two are so pale that a JPEG holds their colour whole, which three lamps need. */
const kinds: readonly MixKind[] = [
  { light: 'red+green', parts: ['red-led', 'green-led'] },
  { light: 'red+yellow-green', parts: ['red-led', 'yellow-green-led'] },
  { light: 'warm-white', parts: ['warm-white', 'red-led'] },
  { light: 'red+green', parts: ['warm-white', 'red-led', 'green-led'], whiteShare: [1, 2] },
  { light: 'warm-white', parts: ['warm-white', 'red-led', 'green-led'], whiteShare: [4, 8] },
  { light: 'cool-white', parts: ['cool-white', 'red-led', 'green-led'], whiteShare: [1, 3] },
];

/** A lamp as it is, and as its data sheet has it. */
interface BoughtLamp {
  readonly light: LightName;
  readonly sheet: Led;
  /** Lumens at a current, mA: of this one, which is not quite the sheet's, and droops by up to a tenth. */
  readonly lumens: (currentMa: number) => number;
}

const maxMa = 20;

/** The sheet errs by up to 2 nm or 0.005 in xy, the lot by a quarter of its light: as lots do. */
function boughtLamp(light: LightName, { between }: Chance): BoughtLamp {
  const xy = xyFromXyz(tristimulus(lights[light]));
  const isWhite = light.endsWith('-white');
  const [mcd, angleDeg] = [between(500, 3000), between(20, 60)];
  const lumensAt20Ma = (mcd / 1000) * lumensPerCandela(angleDeg) * Math.exp(between(-0.25, 0.25));
  const droop = between(0, 0.1);
  const [dx, dy, offNm] = [between(-0.005, 0.005), between(-0.005, 0.005), between(-2, 2)];
  return {
    light,
    sheet: {
      name: light,
      colour: isWhite
        ? { kind: 'xy', xy: { x: xy.x + dx, y: xy.y + dy } }
        : { kind: 'dominant', dominantNm: dominantWavelengthOf(xy, whiteE)!.wavelengthNm + offNm, halfWidthNm: 25 },
      light: { kind: 'intensity', mcd, angleDeg },
      atMa: maxMa,
      forwardV: isWhite || light === 'green-led' ? 3.1 : 2,
      maxMa,
      inSeries: 1,
    },
    lumens: (currentMa) => (lumensAt20Ma * (currentMa / maxMa) * (1 - (droop * currentMa) / maxMa)) / (1 - droop),
  };
}

/** Bright enough for a dark room's light not to count; the camera's exposure follows. */
const brighter = 30;

/** All parts in one place behind a plain window, so that its colour is the same everywhere. */
function litBy(light: string, parts: readonly (readonly [LightName, number])[]): LitWindow {
  const lamps = parts.map(([name, flux]): Lamp => ({
    light: name,
    flux: brighter * flux,
    xMm: 20,
    yMm: 8,
    zMm: 14,
    lobe: 1.2,
  }));
  return windowOf({ widthMm: 40, heightMm: 16 }, light, lamps, { diffuseShare: 0.75 });
}

/** Colour of the glow, from the spectra and never from the engine. */
function trueGlow({ lamps }: LitWindow): Uv1976 {
  const parts = lamps.map(({ light, flux }) => tristimulus(times(lights[light], transmission.base)).map((one) => flux * one)); // prettier-ignore
  const [uPrime, vPrime] = uvPrime([0, 1, 2].map((k) => parts.reduce((sum, xyz) => sum + xyz[k], 0)) as unknown as Xyz);
  return { uPrime, vPrime };
}

const readGlow = ({ reading: { colour } }: PhotographedWindow): ToldGlow => ({
  uPrime: colour.uPrime.value!,
  vPrime: colour.vPrime.value!,
  isCutShort: colour.outOfGamut,
});

interface Loop {
  readonly seed: number;
  readonly parts: readonly LightName[];
  /** Steps from the target after each try, as they are and as they were read. */
  readonly trueSteps: number[];
  readonly readSteps: number[];
  /** Why the photos carry no advice. */
  refusal: string | null;
}

/** A target that these lamps can mix, photographed; then tries as advised, each photographed with the same camera. */
async function runLoop(seed: number): Promise<Loop> {
  const { light, parts, whiteShare = [1, 2] } = kinds[seed % kinds.length];
  const by = chance(seed);
  const lamps = parts.map((part) => boughtLamp(part, by));
  // White makes the most of a mix that has it: what its colours alone make lies outside what a JPEG can hold.
  const shares = parts.map((part) => (part.endsWith('-white') ? by.between(...whiteShare) : by.between(0.25, 0.75)));
  const wanted = litBy(light, parts.map((part, i) => [part, shares[i]] as const)); // prettier-ignore
  const camera = { shading: by.between(0, 1.5) };
  const [reference] = await photographed([{ window: wanted, camera }]);
  const target = readGlow(reference);
  const loop: Loop = { seed, parts, trueSteps: [], readSteps: [], refusal: null };
  let measured: MixRequest['measured'] = null;
  for (let tried = 0; tried < mostTries; tried++) {
    const advice = adviseMix({
      leds: lamps.map(({ sheet }) => sheet),
      isSameLens: false,
      supply: { kind: 'dc', volts: 12, voltsWithoutLamp: 12 },
      target,
      currentMa: null,
      series: 'E96',
      dye: null,
      filamentK: 2400,
      measured,
    });
    if (advice.refusal) {
      // Only what the reading itself says of the photo, and only of three lamps.
      expect([advice.refusal.code, reference.reading.colour.outOfGamut, parts.length]).toEqual(['COLOUR_CUT_SHORT', true, 3]); // prettier-ignore
      loop.refusal = advice.refusal.code;
      break;
    }
    if (advice.correction?.enough) break;
    const currentsMa = advice.lamps.map(({ currentWithNearestMa }) => currentWithNearestMa ?? 0);
    const lit = litBy(light, lamps.map((lamp, i) => [lamp.light, lamp.lumens(currentsMa[i])] as const)); // prettier-ignore
    const [shown] = await photographed([{ window: lit, camera }]);
    const before: NonNullable<MixRequest['measured']>['before'] = measured && { glow: measured.glow, currentsMa: measured.currentsMa! }; // prettier-ignore
    measured = { glow: readGlow(shown), currentsMa, before };
    loop.trueSteps.push(stepsFromUvDistance(uvDistance(trueGlow(lit), trueGlow(wanted))));
    loop.readSteps.push(stepsFromUvDistance(uvDistance(measured.glow, target)));
  }
  return loop;
}

const all: Loop[] = [];
beforeAll(async () => {
  for (const seed of seeds) all.push(await runLoop(seed));
}, patienceMs);
afterAll(() => {
  if (isLongRun) console.info(table());
});
const table = (): string => all.map((loop) => JSON.stringify(loop)).join('\n');

/** The try that looked nearest to its owner. */
const kept = ({ readSteps, trueSteps }: Loop): number => trueSteps[readSteps.indexOf(Math.min(...readSteps))];

describe('a mix of lamps, tried as advised with data sheets a little off, rendered', () => {
  it('[LA14] comes within 3 steps of a reachable target in at most three tries', () => {
    const told = all.filter(({ refusal }) => refusal === null);
    expect(told.length, table()).toBeGreaterThan(0.7 * all.length);
    // One in ten may miss by a little: what a file cuts short looks nearer than it is, and no advice can know.
    const missed = told.filter((loop) => kept(loop) >= 3);
    expect(missed.length, table()).toBeLessThanOrEqual(0.1 * told.length);
    for (const loop of told) expect(kept(loop), table()).toBeLessThan(6);
  });

  it('[LA14] needs the measured try: data sheets alone leave more than that in most cases', () => {
    const first = all.filter(({ trueSteps }) => trueSteps[0] > 3);
    expect(first.length, table()).toBeGreaterThan(0.5 * all.length);
  });
});
