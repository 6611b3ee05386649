import { beforeEach, describe, expect, it } from 'vitest';
import { Book } from '../../../../renderer/state/book';
import { KeptEdits } from '../../../../renderer/state/kept-edits';
import { MemoryStorage, OneUnitHost, rest } from '../../../support/one-unit-host';

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
