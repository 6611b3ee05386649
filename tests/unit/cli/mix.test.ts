import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MixDocument } from '../../../core/contract/lamp-advice';
import { runMix } from '../../../core/node/cli/mix';
import { runCommand, type CommandEnd } from '../../support/run-command';

const red = 'name=red,dominantNm=625,mcd=800,atMa=20,angleDeg=30,vf=2.0,maxMa=20';
const green = 'name=green,xy=0.17,0.70,halfWidthNm=33,mcd=2500,atMa=20,angleDeg=30,vf=3.2,maxMa=20';
const white = 'name=white,xy=0.4578,0.4101,lm=4,atMa=20,vf=3,maxMa=20';
const usual = ['--lamp', red, '--lamp', green, '--supply', '12', '--target', '2400K'];

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial-mix-'));
  const figure = (value: number) => ({ value, plusMinus: 0.004 });
  const reading = (name: string, u: number, v: number) => ({ name, colour: { uPrime: figure(u), vPrime: figure(v) } });
  const readings = [
    reading('filament', 0.2896, 0.5381),
    reading('try', 0.34, 0.548),
    reading('redder', 0.39, 0.543),
    reading('red', 0.55, 0.519),
    { ...reading('cut', 0.2896, 0.5381), colour: { ...reading('cut', 0.2896, 0.5381).colour, outOfGamut: true } },
  ];
  writeFileSync(path.join(folder, 'r.json'), JSON.stringify({ format: 'evendial-readings', version: 1, readings }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...words: string[]): Promise<CommandEnd> => runCommand(runMix, words, folder);
const documentOf = (end: CommandEnd): MixDocument => JSON.parse(end.out) as MixDocument;

describe('evendial mix', () => {
  it('[LA17] prints one document with the keys of the contract', async () => {
    const end = await run(...usual, '--json');
    expect([end.code, end.err]).toEqual([0, '']);
    const document = documentOf(end);
    expect([document.format, document.version, document.lamps.map(({ name }) => name)]).toEqual([
      'evendial-mix',
      1,
      ['red', 'green'],
    ]);
    expect(Object.keys(document.lamps[0])).toEqual([
      'name',
      'luminanceShare',
      'currentMa',
      'resistorOhm',
      'nearestOhm',
      'currentWithNearestMa',
      'currentAtSupplyPlus10Ma',
      'resistorMw',
      'ratedMw',
      'dropShare',
    ]);
    expect(document.lamps[1].nearestOhm!).toBeGreaterThan(document.lamps[0].nearestOhm!);
    expect(Object.keys(document.redPrintForecast!)).toEqual(['index', 'low', 'high']);
  });

  it('[LA16, LA17] the table keeps to 100 columns and ends with the cautions', async () => {
    const { out } = await run(...usual);
    expect(out.split('\n').filter((line) => line.length > 100)).toEqual([]);
    expect(out).toContain('Mains-powered equipment can kill');
  });

  it('[LA17] takes three lamps, a reading as target, a dye, and a measured try', async () => {
    const rest = ['--supply-ac', '6.3', '--hz', '50', '--target', 'r.json#filament', '--json'];
    const three = documentOf(await run('--lamp', red, '--lamp', green, '--lamp', white, ...rest));
    expect(three.lamps).toHaveLength(3);
    expect(three.missSteps).toBeWithin(0, 0.01); // the filament lies inside the three
    const dyed = [...usual.slice(0, 4), ...rest, '--scale-dye', 'r.json#filament', '--measured', 'r.json#try'];
    const corrected = documentOf(await run(...dyed, '--measured-currents', '10,4'));
    expect(corrected.correction!.factors[0]).toBe(1);
    expect(corrected.correction!.factors[1]).toBeGreaterThan(1); // the try was too red
    // Twice the green was shown as less than that: it has to go up further than the sheets say.
    const before = ['--before', 'r.json#redder', '--before-currents', '10,2'];
    const again = documentOf(await run(...dyed, '--measured-currents', '10,4', ...before));
    expect(again.correction!.factors[1]).toBeGreaterThan(corrected.correction!.factors[1]);
    expect(again.notes.join()).toMatch(/what both tries show of a change/);
    const same = documentOf(await run(...dyed, '--measured-currents', '10,4', ...before.slice(0, 3), '10,4.1'));
    expect(same.correction).toEqual(corrected.correction);
    expect(same.notes.join()).toMatch(/The try before tells nothing/);
  });

  it('[LA11, LA17] a target may be an old lamp run below its rated volts', async () => {
    const { out } = await run(...usual.slice(0, 6), '--target', '2700K 6.3/8V', '--json');
    // 2700 K times (6.3 / 8)^0.42
    expect(out).toContain('The old lamp is taken as 2442 K');
  });

  it('[LA15, LA17] a refusal exits 5 with the document and a remedy', async () => {
    const noAngle = red.replace(',angleDeg=30', '');
    const end = await run('--lamp', noAngle, ...usual.slice(2), '--json');
    expect([end.code, documentOf(end).refusal!.code]).toEqual([5, 'LIGHT_UNKNOWN']);
    const bare = green.replace(',angleDeg=30', '');
    const alike = await run('--lamp', noAngle, '--lamp', bare, ...usual.slice(4), '--same-lens', '--json');
    expect([alike.code, documentOf(alike).lamps[0].nearestOhm !== null]).toEqual([0, true]);
    const tooMuch = await run(...usual, '--current', '30', '--json');
    expect([tooMuch.code, documentOf(tooMuch).refusal!.code]).toEqual([5, 'CURRENT_TOO_HIGH']);
    const tooLow = await run(...usual.slice(0, 4), '--supply', '3.3', '--target', '2400K', '--json');
    expect([tooLow.code, documentOf(tooLow).refusal!.code]).toEqual([5, 'SUPPLY_TOO_LOW']);
  });

  it('[LA14, LA17] a measured try with one lamp alone is refused with the document, its shares and a remedy', async () => {
    const end = await run(...usual, '--measured', 'r.json#red', '--measured-currents', '10,4', '--json');
    expect([end.code, end.err]).toEqual([5, '']);
    const { refusal, lamps } = documentOf(end);
    expect(refusal).toMatchObject({ code: 'MEASURED_OUTSIDE', remedy: expect.stringMatching(/all its lamps on/) });
    expect(lamps.map(({ nearestOhm }) => nearestOhm)).toEqual([null, null]);
  });

  it('[LA19] says how far the try lay from the target, also when it is refused; with the plus-minus of its photo', async () => {
    const words = [...usual, '--measured', 'r.json#try', '--measured-currents', '10,4'];
    const { tried } = documentOf(await run(...words, '--json'));
    expect(tried!.missSteps).toBeWithin(tried!.missUv / 0.0011, 0.01); // six digits are printed
    expect(tried!.plusMinusSteps).toBeWithin(0.004 / 0.0011, 1e-3); // alike in u' and v', and the target is stated
    expect((await run(...words)).out).toMatch(/Last try {3}\d+ ± 4 steps from the target/);
    const refused = documentOf(await run(...usual, '--measured', 'r.json#red', '--json'));
    expect(refused.tried!.missSteps).toBeGreaterThan(200);
    expect(documentOf(await run(...usual, '--json')).tried).toBeUndefined();
  });

  it('[LA18] three lamps are not tuned to a photo that cuts its colour short; two are', async () => {
    const rest = ['--supply', '12', '--target', 'r.json#cut', '--measured', 'r.json#filament', '--json'];
    const three = ['--lamp', red, '--lamp', green, '--lamp', white];
    const end = await run(...three, ...rest);
    expect([end.code, documentOf(end).refusal]).toMatchObject([5, { code: 'COLOUR_CUT_SHORT' }]);
    expect((await run(...three.slice(0, 4), ...rest)).code).toBe(0);
    // A try that is too deep in colour says the way all the same.
    const within = ['--supply', '12', '--target', '2400K', '--measured', 'r.json#cut', '--json'];
    expect((await run(...three, ...within)).code).toBe(0);
  });

  it.each([
    [['--lamp', red, '--supply', '12', '--target', '2400K'], /2 or 3 lamps, not 1/],
    [['--lamp', red, '--lamp', red, ...usual.slice(4)], /two lamps are named "red"/],
    [['--lamp', red.replace('625', '25'), ...usual.slice(2)], /--lamp 1: dominantNm is "25"/],
    [['--lamp', red.replace('maxMa', 'maxMA'), ...usual.slice(2)], /--lamp 1: unknown "maxMA"\n.*Did you mean maxMa=/],
    [['--lamp', red.replace(',maxMa=20', ''), ...usual.slice(2)], /--lamp 1: maxMa= is missing/],
    [['--lamp', red, '--lamp', green.replace('0.70', '0.95'), ...usual.slice(4)], /xy=0.17,0.95 is no colour/],
    [usual.slice(0, 6), /--target is missing/],
    [[...usual.slice(0, 6), '--target', 'warm'], /--target is "warm"/],
    [[...usual.slice(0, 4), '--target', '2400K'], /one of --supply and --supply-ac/],
    [[...usual, '--hz', '50'], /--hz and --capacitor go with --supply-ac/],
    [[...usual, '--e-series', 'E48'], /--e-series is "E48"/],
    [[...usual, '--measured', 'r.json'], /holds 5 readings/],
    [[...usual, '--measured-currents', '10,4'], /--measured-currents goes with --measured/],
    [[...usual, '--before-currents', '10,4'], /--before-currents goes with --before/],
    [
      [...usual, '--measured', 'r.json#try', '--before', 'r.json#redder'],
      /--before needs the last try and the currents/,
    ],
    [[...usual, '--before', 'r.json#redder', '--before-currents', '10,0'], /--before-currents is "10,0"/],
  ])('[LA17] %j is refused with its place', async (words, message) => {
    const { code, out, err } = await run(...words);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });
});
