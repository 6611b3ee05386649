import { describe, expect, it } from 'vitest';
import { withoutKey } from '../../../core/base/without-key';
import { applyEdit } from '../../../core/book/apply-edit';
import type { UnitEdit } from '../../../core/contract/book-verbs';
import { figure, missing } from '../../../core/contract/figure';
import type { UnitRecord } from '../../../core/contract/unit-record';
import { plannedAgainstMeasured, plannedWords } from '../../../core/display/planned-words';
import type { FromAdviceWorker, ToAdviceWorker } from '../../../renderer/advice-messages';
import { Advice, type AdviceWorkerLike } from '../../../renderer/state/advice';
import { editsOfPlan, Plans, type Plan } from '../../../renderer/state/plans';
import { isVoltsWithoutLampWrong, isVoltsWrong, ledOf, supplyOf } from '../../../renderer/views/next/led-form';
import { usualLeds } from '../../../renderer/state/mix-form';
import { larkfieldUnit } from '../../support/unit-records';

const applyEdits = (record: UnitRecord, edits: readonly UnitEdit[]): UnitRecord => edits.reduce(applyEdit, record);

const plan: Plan = {
  id: 'p1',
  photo: 'x',
  photoName: 'a.jpg',
  after: 'x',
  what: 'lamp 1: 4 mm back',
  evenness: figure(71.234567, 6.5),
  filedIn: null,
};

describe('plannedAgainstMeasured', () => {
  it('[PN1] says as planned within both plus-minus, else better or not; nothing without a figure', () => {
    expect(plannedAgainstMeasured(figure(70, 6), figure(62, 6))).toMatch(/^As planned: forecast 70 ± 6/);
    expect(plannedAgainstMeasured(figure(70, 6), figure(61, 6))).toMatch(/^Not as planned/);
    expect(plannedAgainstMeasured(figure(70, 6), figure(79, 6))).toMatch(/^Better than planned/);
    expect(plannedAgainstMeasured(figure(70, 6), missing('clipped'))).toBeNull();
  });
});

describe('plannedWords', () => {
  const unit = larkfieldUnit();
  const trial = { name: 'Next', planned: { what: '4 mm back', window: 'scale', evenness: 71, evennessPlusMinus: 7 } };
  it('[PN3] say what was planned and what came of it, in the window that it was planned for', () => {
    expect(plannedWords(unit, trial, 'scale', figure(68, 6))).toBe(
      '4 mm back. As planned: forecast 71 ± 7, measured 68 ± 6.',
    );
    expect(plannedWords(unit, trial, 'scale', figure(50, 6))).toMatch(
      /Not as planned: forecast 71 ± 7, measured 50 ± 6/,
    );
    for (const none of [null, missing('clipped')])
      expect(plannedWords(unit, trial, 'scale', none)).toBe('4 mm back. Evenness 71 ± 7 forecast.');
    expect(plannedWords(unit, trial, 'meter', figure(68, 6))).toBe('4 mm back.');
    expect(plannedWords(unit, { name: 'Next' }, 'scale', figure(68, 6))).toBeNull();
  });

  it('[PN3] a forecast that names no window is of the only one, never of one of two', () => {
    const planned = withoutKey(trial.planned, 'window');
    const one = { windows: unit.windows.slice(0, 1) };
    expect(plannedWords(one, { name: 'Next', planned }, 'scale', figure(68, 6))).toMatch(/^4 mm back\. As planned/);
    expect(plannedWords(unit, { name: 'Next', planned }, 'scale', figure(68, 6))).toBe('4 mm back.');
  });
});

describe('plans', () => {
  it('[PN2] are kept while the tab lives, each once, and can be dropped', () => {
    const kept = new Map<string, string>();
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
    };
    const plans = new Plans(storage);
    plans.put(plan);
    plans.put({ ...plan, id: 'p2' });
    plans.put({ ...plan, what: 'lamp 1: 5 mm back' });
    expect(new Plans(storage).all.value.map(({ id, what }) => [id, what])).toEqual([
      ['p2', 'lamp 1: 4 mm back'],
      ['p1', 'lamp 1: 5 mm back'],
    ]);
    plans.drop('p2');
    expect(new Plans(storage).all.value).toHaveLength(1);
  });

  it('[PN2] become a trial begun like that of their photo, with the forecast and without the other plan', () => {
    const unit = applyEdits(larkfieldUnit(), editsOfPlan(plan, 'Trial 3', { window: 'scale', from: 'Frosted' }));
    const planned = { what: plan.what, window: 'scale', from: 'Frosted', evenness: 71.2346, evennessPlusMinus: 6.5 };
    expect(unit.trials.at(-1)).toMatchObject({ name: 'Trial 3', like: 'Frosted', planned });
    const again = applyEdits(
      unit,
      editsOfPlan({ ...plan, what: 'more' }, 'Trial 4', { window: 'scale', from: 'Trial 3' }),
    );
    expect(again.trials.at(-1)?.planned).toMatchObject({ what: 'more', from: 'Trial 3' });
    const plain = applyEdits(unit, [{ kind: 'add-trial', name: 'Copy', light: null, like: 'Trial 3', mirrorTo: null }]);
    expect(plain.trials.at(-1)?.planned).toBeUndefined();
  });

  it('[PN2] of a mix bring their resistors, in place of those the trial was begun with', () => {
    const mix = {
      lamps: ['red', 'green [2]'],
      currentsMa: [9.9, 3.8],
      resistors: [
        { ohm: 1000, ratedMw: 250 },
        { ohm: 2320, ratedMw: null },
      ],
    };
    const unit = applyEdits(larkfieldUnit(), editsOfPlan({ ...plan, mix }, 'Trial 3', { window: 'scale', from: 'Frosted' })); // prettier-ignore
    const { strings, lamps } = unit.trials.at(-1)!;
    expect(strings).toEqual([
      { name: 'red', resistorOhm: 1000, resistorRatedW: 0.25 },
      { name: 'green [2]', resistorOhm: 2320 },
    ]);
    expect(lamps).toEqual(unit.trials.find(({ name }) => name === 'Frosted')?.lamps);
  });

  it('[PN2] may become a trial of any name', () => {
    for (const name of ['as [1] again', '"quoted"', 'back\\slash]', '8 mm, "left" [2]', '’s . dots.planned']) {
      const unit = applyEdits(larkfieldUnit(), editsOfPlan(plan, name, { window: 'scale', from: 'Frosted' }));
      expect(unit.trials.at(-1), name).toMatchObject({ name, planned: { what: plan.what, from: 'Frosted' } });
    }
  });
});

describe('Advice', () => {
  class Worker implements AdviceWorkerLike {
    onmessage: AdviceWorkerLike['onmessage'] = null;
    onerror: AdviceWorkerLike['onerror'] = null;
    readonly asked: ToAdviceWorker[] = [];
    postMessage(message: ToAdviceWorker): void {
      this.asked.push(message);
    }
    say(data: FromAdviceWorker): void {
      this.onmessage?.({ data } as MessageEvent<FromAdviceWorker>);
    }
  }
  const move = (mm: number) => ({ lamp: 1 as const, byMm: [mm, 0, 0] as const, tiltDeg: [0, 0] as const });

  it('[SC23] asks one thing at a time, and of those that wait only the last of each kind', async () => {
    const worker = new Worker();
    const advice = new Advice(() => worker);
    const told = [1, 2, 3].map((mm) => advice.ask('move', move(mm)));
    expect(worker.asked.map(({ asks }) => asks)).toEqual([move(1)]);
    expect(await told[1]).toBeNull();
    worker.say({ id: worker.asked[0].id, refusal: { code: 'A', message: '', remedy: '' } });
    expect(await told[0]).toMatchObject({ refusal: { code: 'A' } });
    expect(worker.asked.map(({ asks }) => asks)).toEqual([move(1), move(3)]);
  });

  it('[SC23] a worker that ends by a defect is answered for, and another is started', async () => {
    const workers: Worker[] = [];
    const advice = new Advice(() => (workers.push(new Worker()), workers.at(-1)!));
    const told = advice.ask('move', move(1));
    workers[0].onerror?.({} as ErrorEvent);
    expect(await told).toMatchObject({ refusal: { code: 'ADVICE_STOPPED' } });
    void advice.ask('move', move(2));
    expect(workers[1].asked).toHaveLength(1);
  });
});

describe('the form of a mix', () => {
  it('[SC21] gives a lamp and a supply, or nothing while a number is wrong; light may be left out', () => {
    const [red] = usualLeds;
    expect(ledOf(red)).toMatchObject({ light: { mcd: 800, angleDeg: 30 }, forwardV: 2, maxMa: 20, inSeries: 1 });
    expect(ledOf({ ...red, mcd: '' })?.light).toBeNull();
    expect(ledOf({ ...red, angleDeg: '' })?.light).toMatchObject({ angleDeg: null });
    for (const wrong of [{ forwardV: '' }, { dominantNm: '25' }, { mcd: 'bright' }])
      expect(ledOf({ ...red, ...wrong })).toBeNull();
    const dc = { kind: 'dc', volts: '12,5', voltsWithoutLamp: '', hz: '50' } as const;
    expect(supplyOf(dc)).toEqual({ kind: 'dc', volts: 12.5, voltsWithoutLamp: null });
    expect(supplyOf({ ...dc, voltsWithoutLamp: 'more' })).toBeNull();
    // Only what is wrong is marked.
    expect(isVoltsWithoutLampWrong({ ...dc, voltsWithoutLamp: 'more' })).toBe(true);
    expect(isVoltsWrong({ ...dc, voltsWithoutLamp: 'more' })).toBe(false);
    expect(supplyOf({ ...dc, kind: 'ac', volts: '6.3' })).toMatchObject({ hz: 50, capacitorUf: 470 });
    expect(supplyOf({ ...dc, kind: 'ac', volts: '60' })).toBeNull();
  });
});
