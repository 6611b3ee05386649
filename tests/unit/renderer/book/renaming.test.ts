import { beforeEach, describe, expect, it } from 'vitest';
import { Book } from '../../../../renderer/state/book';
import { Filings } from '../../../../renderer/state/filings';
import { figure } from '../../../../core/contract/figure';
import { KeptEdits } from '../../../../renderer/state/kept-edits';
import { Plans } from '../../../../renderer/state/plans';
import { diskFull, MemoryStorage, OneUnitHost, rest } from '../../../support/one-unit-host';

let host: OneUnitHost;
let filings: Filings;
let plans: Plans;
let planStorage: MemoryStorage;
let book: Book;

beforeEach(async () => {
  host = new OneUnitHost();
  filings = new Filings(new MemoryStorage());
  planStorage = new MemoryStorage();
  plans = new Plans(planStorage);
  book = new Book(host.link, new KeptEdits(new MemoryStorage()), () => undefined, [filings, plans]);
  await book.open(host.record.id);
});

describe('a new name', () => {
  it('[SU19] reaches what was typed before it was answered: no second part is begun', async () => {
    host.late.add('unitEdit');
    book.set('parts["LED"].name', 'LED, 3 mm', 'Name');
    book.set('parts["LED"].count', '6', 'Count');
    await rest();
    await host.answer('unitEdit');
    await host.answer('unitEdit');
    expect(host.record.parts).toEqual([{ name: 'LED, 3 mm', count: 6, lot: 'B7' }]);
  });

  it('[SU19] reaches what could not be saved, also of a unit that is no longer in view', async () => {
    host.failure = diskFull;
    book.set('trials["Frosted"].name', 'Say "matt" [2]', 'Name');
    book.edit('chosen', [{ kind: 'choose-trial', trial: 'Frosted', why: 'even' }]);
    book.set('windows["scale"].name', 'dial', 'Name');
    book.set('trials["Frosted"].windows', '["scale"]', 'windows that it lights');
    book.set('trials["Frosted"].diffuser', 'sanded acrylic', 'Diffuser');
    await rest();
    host.failure = null;
    await book.open('another');
    await book.save();
    const trial = host.record.trials.find(({ name }) => name === 'Say "matt" [2]');
    expect(trial).toMatchObject({ windows: ['dial'], diffuser: 'sanded acrylic' });
    expect([host.record.trials.length, host.record.chosen]).toEqual([2, { trial: 'Say "matt" [2]', why: 'even' }]);
  });

  it('[SU19] is what is selected and what photos of the bench are filed as; undo gives the old one back', async () => {
    const filed = { unit: host.record.id, unitName: 'T-60', window: 'scale', role: 'trial', trial: 'Frosted' } as const;
    filings.put([
      ['photo', { ...filed, asked: '' }],
      ['of another unit', { ...filed, unit: 'another', asked: '' }],
    ]);
    book.select({ kind: 'trial', window: 'scale', trial: 'Frosted' });
    book.set('trials["Frosted"].name', 'Matt', 'Name');
    await rest();
    book.set('windows["scale"].name', 'dial', 'Name');
    await rest();
    expect(book.state.value.selected).toEqual({ kind: 'trial', window: 'dial', trial: 'Matt' });
    expect(filings.of('photo')).toMatchObject({ window: 'dial', trial: 'Matt' });
    expect(filings.of('of another unit')).toMatchObject({ window: 'scale', trial: 'Frosted' });
    await book.restore('undo');
    expect(book.state.value.selected).toEqual({ kind: 'trial', window: 'scale', trial: 'Matt' });
    expect(filings.of('photo')).toMatchObject({ window: 'scale', trial: 'Matt' });
  });

  it('[SU19] of a trial or of the unit itself is that of the plan and of the photos filed there, also after undo and a reload', async () => {
    const filedIn = { unit: host.record.id, unitName: host.record.name, trial: 'Frosted' };
    const plan = {
      photo: 'photo',
      photoName: 'a.jpg',
      after: 'photo',
      what: 'lamp 1: 4 mm back',
      evenness: figure(71, 6),
    };
    plans.put({ ...plan, id: 'elsewhere', filedIn: { ...filedIn, unit: 'another' } });
    plans.put({ ...plan, id: 'on the bench', filedIn: null });
    plans.put({ ...plan, id: 'filed', filedIn });
    const filing = { ...filedIn, window: 'scale', role: 'trial', asked: '' } as const;
    filings.put([['photo', filing]]);
    const filedAs = (): unknown[] =>
      [...plans.all.value, ...new Plans(planStorage).all.value].map((one) => one.filedIn);
    book.set('trials["Frosted"].name', 'Matt', 'Name');
    book.set('name', 'T-60, second', 'Name');
    await rest();
    const named = { ...filedIn, trial: 'Matt', unitName: 'T-60, second' };
    const other = { ...filedIn, unit: 'another' };
    expect(filedAs()).toEqual([named, null, other, named, null, other]);
    expect(filings.of('photo')).toEqual({ ...filing, trial: 'Matt', unitName: 'T-60, second' });
    await book.restore('undo');
    expect(filedAs()[0]).toEqual({ ...named, unitName: host.record.name });
    expect(host.record.name).toBe(filedIn.unitName);
  });

  it('[SU19] that is refused changes nothing, and a refused value stays marked when its trial is renamed', async () => {
    book.select({ kind: 'window', window: 'scale' });
    book.set('windows["scale"].name', 'meter', 'Name');
    book.set('windows["scale"].widthMm', 'wide', 'Width');
    await rest();
    expect(host.record.windows.map(({ name }) => name)).toEqual(['scale', 'meter']);
    expect([...book.state.value.refusedFields.keys()]).toEqual(['windows["scale"].name', 'windows["scale"].widthMm']);
    expect(book.state.value.selected).toEqual({ kind: 'window', window: 'scale' });
    book.set('windows["scale"].name', 'dial', 'Name');
    await rest();
    expect([...book.state.value.refusedFields.keys()]).toEqual(['windows["dial"].widthMm']);
  });

  it('[SU19] of what is selected in one unit is not taken for that of another', async () => {
    book.select({ kind: 'window', window: 'scale' });
    await book.open('another');
    expect(book.state.value.selected).toEqual({ kind: 'unit' });
  });
});
