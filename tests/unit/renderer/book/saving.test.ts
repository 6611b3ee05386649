import { beforeEach, describe, expect, it } from 'vitest';
import type { BookEntry } from '../../../../core/contract/book-verbs';
import { Book } from '../../../../renderer/state/book';
import { unsavedText } from '../../../../renderer/state/book-state';
import { KeptEdits } from '../../../../renderer/state/kept-edits';
import { diskFull, MemoryStorage, OneUnitHost, rest } from '../../../support/one-unit-host';

describe('what is typed is saved by itself', () => {
  let host: OneUnitHost;
  let storage: MemoryStorage;
  let said: string[];
  let book: Book;
  const opened = async (): Promise<Book> => {
    const one = new Book(host.link, new KeptEdits(storage), (words) => said.push(words));
    await one.open(host.record.id);
    return one;
  };

  beforeEach(async () => {
    host = new OneUnitHost();
    storage = new MemoryStorage();
    said = [];
    book = await opened();
  });

  it('[SU9] one edit after the other, each on what the one before has left', async () => {
    book.set('owner', 'A. Lindqvist', 'Owner');
    book.set('before.lamp.base', 'BA9s', 'Base');
    expect(book.state.value.saving.kind).toBe('saving');
    await rest();
    expect(book.state.value.saving).toEqual({ kind: 'saved' });
    expect([host.record.owner, host.record.before?.lamp?.base]).toEqual(['A. Lindqvist', 'BA9s']);
    expect(book.state.value.record?.revision).toBe(host.record.revision);
    expect(storage.texts.size).toBe(0);
  });

  it('[SU9] what cannot be saved stays in the field, is told, and goes into the book when it is tried again', async () => {
    host.failure = diskFull;
    book.set('owner', 'A. Lindqvist', 'Owner');
    await rest();
    const { saving, unsaved, record } = book.state.value;
    expect(saving).toMatchObject({ kind: 'not-saved', error: { message: diskFull.message } });
    expect(unsavedText(unsaved, record!.id, 'owner')).toBe('A. Lindqvist');
    expect(record?.owner).toBe('the owner');
    book.set('notes', 'a second edit', 'Notes');
    await rest();
    expect(book.state.value.unsaved).toHaveLength(2);
    host.failure = null;
    await book.save();
    expect(book.state.value.saving).toEqual({ kind: 'saved' });
    expect([host.record.owner, host.record.notes]).toEqual(['A. Lindqvist', 'a second edit']);
  });

  it('[SU9] a page that ended before saving offers its edits again', async () => {
    host.failure = {
      kind: 'engine-stopped',
      code: 'HOST_GONE',
      message: 'The bench does not answer.',
      remedy: 'Start it.',
    };
    book.set('owner', 'A. Lindqvist', 'Owner');
    await rest();
    host.failure = null;
    const again = await opened();
    expect(again.state.value.saving.kind).toBe('not-saved');
    expect(again.state.value.unsaved.map(({ unitName, what }) => [unitName, what])).toEqual([
      ['Larkfield T-60', 'Owner'],
    ]);
    await again.save();
    expect(host.record.owner).toBe('A. Lindqvist');
    expect((await opened()).state.value.saving).toEqual({ kind: 'saved' });
  });

  it('[SU9] edits of the last time that cannot be read are told of and put aside; those that can are offered', async () => {
    const whole = {
      unit: host.record.id,
      unitName: 'T-60',
      what: 'Owner',
      edits: [{ kind: 'set', field: 'owner', text: 'A' }],
    };
    const kept = 'evendial-unsaved';
    for (const [text, offered] of [
      ['{"unit":', 0],
      ['null', 0],
      [JSON.stringify([{ ...whole, edits: 'owner' }, whole, null]), 1],
      [JSON.stringify([{ ...whole, unitName: 7 }]), 0],
    ] as const) {
      storage.texts.set(kept, text);
      const again = await opened();
      expect(again.state.value.unsaved).toHaveLength(offered);
      expect(again.state.value.lost?.message).toMatch(/cannot be read/);
      expect(storage.texts.get(`${kept}-damaged`)).toBe(text);
      again.dismissRefused();
      expect(again.state.value.lost).toBeNull();
      expect((await opened()).state.value).toMatchObject({ lost: null, unsaved: again.state.value.unsaved });
    }
  });

  it('[SU9] edits that are given up are gone, and the record is shown as it stands', async () => {
    host.failure = diskFull;
    book.set('owner', 'nobody', 'Owner');
    await rest();
    host.failure = null;
    book.dropUnsaved();
    await rest();
    expect(book.state.value).toMatchObject({ saving: { kind: 'saved' }, unsaved: [] });
    expect(book.state.value.record?.owner).toBe('the owner');
    expect(storage.texts.size).toBe(0);
  });

  it('[SU10] a wrong value is told at its field and not tried again; what was typed after it is saved', async () => {
    book.set('before.lamp.ratedV', 'eight', 'Rated');
    book.set('owner', 'A. Lindqvist', 'Owner');
    await rest();
    const { refusedFields, saving, unsaved } = book.state.value;
    expect(refusedFields.get('before.lamp.ratedV')?.message).toMatch(/number/);
    expect([saving.kind, unsaved.length, host.record.owner]).toEqual(['saved', 0, 'A. Lindqvist']);
    book.set('before.lamp.ratedV', '8', 'Rated');
    await rest();
    expect(book.state.value.refusedFields.size).toBe(0);
  });

  it('[SU10] a refused edit of no field is told on the screen', async () => {
    book.edit('window added', [{ kind: 'add-window', window: { name: 'scale', widthMm: 92, heightMm: 18 } }]);
    await rest();
    expect(book.state.value.refused?.message).toMatch(/already/);
  });

  it('[SU11] while another program has the book, nothing is asked to be changed', async () => {
    host.readOnly = 'Another Evendial has this book open.';
    void book.list('');
    host.lists.get('')?.([]);
    await rest();
    host.calls.length = 0;
    book.set('owner', 'nobody', 'Owner');
    await book.restore('undo');
    expect([host.calls, book.state.value.unsaved]).toEqual([[], []]);
  });

  it('[SU7] an answer to an older search does not take the place of a newer one', async () => {
    const entry = (name: string): BookEntry => ({
      id: name,
      name,
      savedAt: host.record.savedAt,
      windows: [],
      revision: 1,
      trials: 0,
      photos: 0,
      chosen: null,
    });
    const [first, second] = [book.list('lark'), book.list('larkfield')];
    host.lists.get('larkfield')?.([entry('new')]);
    await second;
    host.lists.get('lark')?.([entry('old')]);
    await first;
    expect(book.state.value.entries?.map(({ id }) => id)).toEqual(['new']);
  });
});
