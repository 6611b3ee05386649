import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { figure, missing } from '../../../core/contract/figure';
import type { PhotoRole } from '../../../core/contract/unit-record';
import { runMix } from '../../../core/node/cli/mix';
import { jsonText } from '../../../core/node/cli/rounded';
import { adviseAskedMix } from '../../../renderer/asked-mix';
import type { MeasuredPhotoOnBench } from '../../../renderer/state/bench-state';
import {
  lampToAdd,
  MixForm,
  noTry,
  usualLeds,
  withoutLamp,
  type MixText,
  type TryText,
} from '../../../renderer/state/mix-form';
import { mixedTries } from '../../../renderer/state/mixed-tries';
import type { Plan } from '../../../renderer/state/plans';
import { firstSettings } from '../../../renderer/state/settings';
import { readMix, type MixPhotos, type ReadMix } from '../../../renderer/views/next/read-mix';
import { MemoryStorage } from '../../support/one-unit-host';
import { runCommand } from '../../support/run-command';
import { madeUpReading } from '../cli/made-up';

type Glow = readonly [uPrime: number, vPrime: number] | null;

function photo(id: string, glow: Glow, outOfGamut = false): MeasuredPhotoOnBench {
  const plain = madeUpReading({ name: id });
  const [uPrime, vPrime] = glow?.map((value) => figure(value, 0.004)) ?? [missing('clipped'), missing('clipped')];
  const reading = { ...plain, colour: { ...plain.colour, uPrime, vPrime, outOfGamut }, timingMs: { decode: 1, measure: 1 } }; // prettier-ignore
  return { id, name: `${id}.jpg`, isSample: false, settings: firstSettings, status: { kind: 'measured' }, reading };
}
const filament = photo('filament', [0.2896, 0.5381]);
const cutFilament = photo('filament', [0.2896, 0.5381], true);
const [tooRed, redder] = [photo('too red', [0.34, 0.548]), photo('redder', [0.39, 0.543])];
const redAlone = photo('red alone', [0.55, 0.519]);
const clipped = photo('clipped', null);
/** As the command line's tests take them, of a stated colour where a data sheet gives one. */
const tries = [clipped, redAlone, tooRed, redder];

const by = ({ id }: MeasuredPhotoOnBench, ...currents: string[]): TryText => ({
  ...noTry,
  by: { photo: id },
  currents,
});
const form = (change: Partial<MixText>): MixText => ({ ...new MixForm(new MemoryStorage()).text.value, ...change });
const asRead = (change: Partial<MixText>, photos: Partial<MixPhotos> = {}, planned: readonly TryText[] = []): ReadMix =>
  readMix(form(change), { reference: filament, tries, ...photos }, planned);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial-mix-form-'));
  const readingsIn = (file: string, photos: readonly MeasuredPhotoOnBench[]): void => {
    const document = { format: 'evendial-readings', version: 1, readings: photos.map(({ reading }) => reading) };
    writeFileSync(path.join(folder, file), jsonText(document));
  };
  readingsIn('r.json', [filament, ...tries]);
  readingsIn('cut.json', [cutFilament]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lampWords = usualLeds.flatMap(({ name, dominantNm, mcd, angleDeg, atMa, forwardV, maxMa }) => [
  '--lamp',
  `name=${name},dominantNm=${dominantNm},mcd=${mcd},angleDeg=${angleDeg},atMa=${atMa},vf=${forwardV},maxMa=${maxMa}`,
]);
const thirdLamp = 'name=white,dominantNm=480,mcd=900,angleDeg=40,atMa=20,vf=3.1,maxMa=20';
const third = { name: 'white', dominantNm: '480', mcd: '900', angleDeg: '40', atMa: '20', forwardV: '3.1', maxMa: '20' }; // prettier-ignore
const three = { leds: [...usualLeds, third] };

describe('the form of a mix with measured tries', () => {
  const last = by(tooRed, '10', '4');
  const lastWords = ['--measured', 'r.json#too red', '--measured-currents', '10,4'];
  it.each<readonly [string, Partial<MixText>, Partial<MixPhotos>, readonly string[]]>([
    ['no try', {}, {}, []],
    ['a try with its currents', { last }, {}, lastWords],
    ['a try without', { last: by(tooRed) }, {}, lastWords.slice(0, 2)],
    ['two tries', { last, before: by(redder, '10', '2') }, {}, [...lastWords, '--before', 'r.json#redder', '--before-currents', '10,2']],
    ['a try before that tells nothing', { last, before: by(redder, '10', '4,1') }, {}, [...lastWords, '--before', 'r.json#redder', '--before-currents', '10,4.1']],
    ['a lamp that was out', { last: by(redAlone, '10', '4') }, {}, ['--measured', 'r.json#red alone', '--measured-currents', '10,4']],
    ['three lamps', { ...three, last: by(tooRed, '10', '4', '1') }, {}, ['--lamp', thirdLamp, ...lastWords.slice(0, 3), '10,4,1']],
    ['a target cut short', { ...three, last: by(tooRed, '10', '4', '1') }, { reference: cutFilament }, ['--lamp', thirdLamp, '--target', 'cut.json#filament', ...lastWords.slice(0, 3), '10,4,1']],
    ['two lamps, cut short', { last }, { reference: cutFilament }, ['--target', 'cut.json#filament', ...lastWords]],
    ['a stated target', { last, isByReference: false, kelvin: '2500' }, {}, ['--target', '2500K', '--filament', '2500', ...lastWords]],
  ])('[SC37] says what the command line says: %s', async (_, change, photos, words) => {
    const target = words.includes('--target') ? [] : ['--target', 'r.json#filament'];
    const told = await runCommand(runMix, [...lampWords, '--supply', '12', '--scale-dye', 'none', ...target, ...words, '--json'], folder);
    expect(told.err).toBe('');
    const { asks } = asRead(change, photos);
    expect(JSON.parse(jsonText(adviseAskedMix(asks!)))).toEqual(JSON.parse(told.out));
  }); // prettier-ignore

  it('[SC37] takes a typed colour, and asks nothing while one is wrong', () => {
    const typed: TryText = { by: 'typed', uPrime: '0,34', vPrime: '0.548', currents: ['10', '4'] };
    expect(asRead({ last: typed }).asks?.measured).toEqual({
      glow: { uPrime: 0.34, vPrime: 0.548 },
      currentsMa: [10, 4],
      before: null,
    });
    for (const wrong of [{ uPrime: '' }, { vPrime: '5.4' }, { currents: ['10', ''] }, { currents: ['10', '0'] }])
      expect(asRead({ last: { ...typed, ...wrong } }).asks, JSON.stringify(wrong)).toBeNull();
    expect(asRead({ last: { ...typed, currents: ['', ''] } }).asks?.measured?.currentsMa).toBeNull();
  });

  it('[SC37] a try before needs the currents of both, each marked where it is missing', () => {
    const half = asRead({ last: by(tooRed), before: by(redder, '10', '') });
    expect(half.asks).toBeNull();
    expect([half.last.areCurrentsWrong, half.before.areCurrentsWrong]).toEqual([
      [true, true],
      [false, true],
    ]);
    expect(asRead({ last: by(tooRed) }).last.areCurrentsWrong).toEqual([false, false]);
  });

  it('[SC37] a photo without a colour is refused with its reason; one that left the bench is no try', () => {
    const { asks, last } = asRead({ last: by(clipped, '10', '4') });
    expect([asks, last.refusal?.code, last.refusal?.message]).toEqual([
      null,
      'READING_WITHOUT_COLOUR',
      'clipped.jpg has no colour: clipped',
    ]);
    expect(asRead({ last: by(photo('gone', [0.3, 0.5]), '10', '4') }).asks?.measured).toBeNull();
  });
});

describe('planned mixes', () => {
  const plan = (id: string, mix: Plan['mix'], after: string): Plan => ({
    id,
    photo: after,
    photoName: `${after}.jpg`,
    what: 'mix',
    evenness: missing('a mix of lamps says nothing of evenness'),
    ...(mix ? { mix } : {}),
    after,
    filedIn: null,
  });
  const lamps = ['red', 'green'];
  const resistors = lamps.map(() => ({ ohm: 1000, ratedMw: 250 }));
  const mix = (...currentsMa: number[]) => ({ lamps, currentsMa, resistors });
  const roleOf = ({ id }: { readonly id: string }): PhotoRole => (id === 'filament' ? 'reference' : 'trial');
  /** Newest first: the first mix was planned beside the filament's photo, the second beside its try. */
  const photos = [tooRed, redder, filament];
  const plans = [
    plan('second', mix(10, 3.91234), 'redder'),
    plan('a lamp moved', undefined, 'filament'),
    plan('first', mix(10, 2), 'filament'),
  ];

  it('[SC37] that were built fill in photo and currents, the newest first; those of other lamps do not', () => {
    const built = mixedTries(plans, photos, roleOf, lamps);
    expect(built).toEqual([by(tooRed, '10', '3.912'), by(redder, '10', '2')]);
    expect(mixedTries(plans, photos, roleOf, ['red', 'white'])).toEqual([]);
    // Not photographed yet.
    expect(mixedTries(plans, [redder, filament], roleOf, lamps)).toEqual([by(redder, '10', '2')]);
    const { told, asks } = asRead({}, { tries: [tooRed, redder] }, built);
    expect([told.last, told.before, told.isLastPlanned, told.isBeforePlanned]).toEqual([...built, true, true]);
    expect(asks?.measured).toMatchObject({ currentsMa: [10, 3.912], before: { currentsMa: [10, 2] } });
  });

  it('[SC37] were not built by photos that lay there already when they were planned', () => {
    const late = [{ ...plans[2], after: 'too red' }];
    expect(mixedTries(late, photos, roleOf, lamps)).toEqual([]);
    expect(mixedTries(late, [redAlone, ...photos], roleOf, lamps)).toEqual([by(redAlone, '10', '2')]);
  });

  it('[SC37] give way to what a person tells, also that there is no try', () => {
    const built = mixedTries(plans, photos, roleOf, lamps);
    const photosOf = { tries: [tooRed, redder] };
    const measured = asRead({ last: by(tooRed, '9.5', '3.7') }, photosOf, built);
    expect([measured.told.isLastPlanned, measured.told.isBeforePlanned]).toEqual([false, true]);
    expect(measured.asks?.measured).toMatchObject({ currentsMa: [9.5, 3.7], before: { currentsMa: [10, 2] } });
    expect(asRead({ last: noTry }, photosOf, built).asks?.measured).toBeNull();
    expect(asRead({ before: noTry }, photosOf, built).asks?.measured?.before).toBeNull();
    // One photo is not two tries.
    expect(asRead({ last: by(redder, '10', '2'), before: by(redder, '10', '2') }, photosOf, built).told.before).toEqual(noTry);
  }); // prettier-ignore
});

describe('a lamp of a mix', () => {
  it('[SC37] that is added brings the hue that is missing: with it a filament’s glow is reached', () => {
    const leds = [...usualLeds, lampToAdd(usualLeds)];
    const missed = (change: Partial<MixText>): number => adviseAskedMix(asRead(change).asks!).missSteps;
    expect(missed({})).toBeGreaterThan(5);
    expect(missed({ leds })).toBeLessThan(0.1);
    expect(lampToAdd(leds.slice(1)).name).toBe('red');
  });

  it('[SC37] that is left out takes its own currents with it, and no other’s', () => {
    const [last, before] = [by(tooRed, '10', '4', '1'), by(redder, '9', '', '2')];
    const left = withoutLamp(form({ ...three, last, before }), 1);
    expect(left).toEqual({ leds: [three.leds[0], third], last: by(tooRed, '10', '1'), before: by(redder, '9', '2') });
    expect(withoutLamp(form(three), 2)).toEqual({ leds: usualLeds, last: null, before: null });
  });
});

describe('what was typed into the form of a mix', () => {
  it('[SC37] is there for the next photo and after a reload; what cannot be read is put aside', () => {
    const storage = new MemoryStorage();
    const put = { kelvin: '2500', last: by(tooRed, '10', '4') };
    new MixForm(storage).put(put);
    expect(new MixForm(storage).text.value).toMatchObject(put);
    for (const damage of ['{', '[{"leds":[]}]', JSON.stringify([{ ...form(put), last: { by: 3 } }])]) {
      storage.setItem('evendial-mix-form', damage);
      const again = new MixForm(storage);
      expect([again.isDamaged, again.text.value]).toEqual([true, form({})]);
      expect(storage.getItem('evendial-mix-form-damaged')).toBe(damage);
    }
  });
});
