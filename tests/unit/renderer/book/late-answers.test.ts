import { beforeEach, describe, expect, it } from 'vitest';
import { Book } from '../../../../renderer/state/book';
import { unsavedText } from '../../../../renderer/state/book-state';
import { KeptEdits } from '../../../../renderer/state/kept-edits';
import { keptNumbers, takenOver, wholeText } from '../../../../renderer/views/unit/numbers-together';
import { diskFull, MemoryStorage, OneUnitHost, rest } from '../../../support/one-unit-host';

let host: OneUnitHost;
let book: Book;
beforeEach(() => {
  host = new OneUnitHost();
  book = new Book(host.link, new KeptEdits(new MemoryStorage()), () => undefined);
});

describe('a unit that is opened while the host is slow', () => {
  it('[SU16] is shown, though the one before it answers last', async () => {
    host.late.add('unitRead');
    void book.open(host.record.id);
    void book.open('another');
    await rest();
    await host.answer('unitRead');
    expect(book.state.value.record).toBeNull();
    await host.answer('unitRead');
    expect(book.state.value.record?.id).toBe('another');
  });

  it('[SU16] is shown, though the one before it turns out to be unreadable', async () => {
    host.failure = diskFull;
    host.late.add('unitRead');
    void book.open(host.record.id);
    await rest();
    host.failure = null;
    host.late.clear();
    await book.open('another');
    await host.answer('unitRead');
    expect(book.state.value).toMatchObject({ record: { id: 'another' }, recordError: null });
  });

  it('[SU16] is shown while a change of another unit is being saved, and stays when that answers', async () => {
    await book.open(host.record.id);
    host.late.add('unitEdit');
    book.set('owner', 'A. Lindqvist', 'Owner');
    await book.open('another');
    expect(book.state.value.record?.id).toBe('another');
    await host.answer('unitEdit');
    expect(book.state.value).toMatchObject({ record: { id: 'another' }, saving: { kind: 'saved' } });
  });

  it('[SU16] is shown with the change that was saved meanwhile, not as it was read before', async () => {
    await book.open(host.record.id);
    host.late.add('unitRead');
    void book.open(host.record.id);
    await rest();
    book.set('owner', 'A. Lindqvist', 'Owner');
    await rest();
    await host.answer('unitRead');
    expect(book.state.value.record?.owner).toBe('A. Lindqvist');
  });

  it('[SU16] stays on the screen when undo of the one before it answers', async () => {
    await book.open(host.record.id);
    book.set('owner', 'A. Lindqvist', 'Owner');
    await rest();
    host.late.add('unitRestore');
    void book.restore('undo');
    await book.open('another');
    await host.answer('unitRestore');
    expect(book.state.value.record?.id).toBe('another');
  });
});

describe('undo in a unit takes back what was done last', () => {
  const left = 'trials["Bare, 8 mm"].lamps["left"].positionMm';
  beforeEach(() => book.open(host.record.id));

  it('[SU17] which is the change that is being saved, not the one before it', async () => {
    book.set('owner', 'A. Lindqvist', 'Owner');
    await rest();
    host.late.add('unitEdit');
    book.set(left, '30,9,8', 'left moved');
    const undone = book.restore('undo');
    await rest();
    expect(host.calls).not.toContain('unitRestore');
    await host.answer('unitEdit');
    await undone;
    expect(host.record.owner).toBe('A. Lindqvist');
    expect(host.record.trials[0].lamps?.[0].positionMm).toEqual([23, 9, 8]);
    expect(book.state.value.record?.revision).toBe(host.record.revision);
  });

  it('[SU17] which is the last that could not be saved; what was done before it is kept', async () => {
    host.failure = diskFull;
    book.set('owner', 'A. Lindqvist', 'Owner');
    book.set(left, '30,9,8', 'left moved');
    await rest();
    await book.restore('undo');
    const { unsaved, record } = book.state.value;
    expect([unsavedText(unsaved, record!.id, left), unsaved.map(({ what }) => what)]).toEqual([undefined, ['Owner']]);
    await book.restore('redo');
    await book.restore('undo');
    expect(book.state.value).toMatchObject({ unsaved: [], saving: { kind: 'saved' } });
    expect(host.calls).not.toContain('unitRestore');
  });
});

describe('numbers that are one field', () => {
  const field = 'trials["Bare, 8 mm"].lamps["left"].positionMm';
  const kept = (): readonly string[] => {
    const { unsaved, record } = book.state.value;
    return keptNumbers(unsavedText(unsaved, record!.id, field), record?.trials[0].lamps?.[0].positionMm, 3);
  };
  beforeEach(() => book.open(host.record.id));

  it('[SU18] keep what is being typed in one while another is saved', async () => {
    host.late.add('unitEdit');
    const before = kept();
    book.set(field, wholeText(['25.0', before[1], before[2]], [0, 0, 0]), 'left place');
    const saving = kept();
    expect(takenOver(['25.0', '9', '8'], before, saving)).toEqual(['25.0', '9', '8']);
    await rest();
    await host.answer('unitEdit');
    expect(takenOver(['25.0', '1', '8'], saving, kept())).toEqual(['25', '1', '8']);
    await book.restore('undo');
    expect(kept()).toEqual(before);
  });

  it('[SU18] show what could not be saved, and complete what was given in part', async () => {
    host.failure = diskFull;
    book.set(field, wholeText(['', '4', ''], [46, 9, 10]), 'left place');
    await rest();
    expect(kept()).toEqual(['46', '4', '10']);
    expect(keptNumbers('', [1, 2], 2)).toEqual(['', '']);
    expect(wholeText(['', ''], [0, 0])).toBe('');
  });
});
