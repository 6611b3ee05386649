import { describe, expect, it } from 'vitest';
import { newUnit } from '../../../core/book/revisions';
import { missing } from '../../../core/contract/figure';
import { sheetContent, type SheetSource } from '../../../core/sheet/make-content';
import type { SheetContent } from '../../../core/sheet/sheet-content';
import { madeUpReading } from '../cli/made-up';
import { stepNote } from '../../../core/display/step-note';
import { textsOf } from '../../support/sheet-pictures';
import { larkfieldSource } from '../../support/sheet-source';
import { savedAt } from '../../support/unit-records';

const nothingMeasured = { measured: [], failed: [], comparison: null, program: 'Evendial 0.1.0' };
const titles = ({ sections }: SheetContent): string[] => sections.map(({ title }) => title);
const tablesOf = ({ sections }: SheetContent, title: string) =>
  sections
    .filter((section) => section.title.startsWith(title))
    .flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'table' ? [block] : [])));

/** The same source with other figures in every reading of the scale. */
function withReading(source: SheetSource, change: (name: string) => Parameters<typeof madeUpReading>[0]): SheetSource {
  const measured = source.measured.map((one) =>
    one.reading.window === 'scale' ? { ...one, reading: { ...one.reading, ...change(one.reading.name) } } : one,
  );
  return { ...source, measured };
}

describe('sheetContent', () => {
  it('[RS1] begins with the windows before and after, then what was fitted and how to go back, cautions, the rest', () => {
    const source = larkfieldSource({
      after: { howToGoBack: 'Put the old lamps back', temperatureC: 31 },
      notes: 'Cleaned.',
    });
    expect(titles(sheetContent(source))).toEqual([
      'scale, 92 × 18 mm',
      'meter, 38 × 38 mm',
      'What was fitted',
      'Checks after the swap',
      'How to go back',
      'Cautions',
      'What was there before',
      'All trials',
      'Parts',
      'Notes',
      'The other trials',
      'How it was measured',
      'Versions',
    ]);
  });

  it('[RS2] leaves out what is not recorded: an empty unit has cautions, limits and versions only', () => {
    const content = sheetContent({ record: newUnit('one', 'Larkfield M-4', savedAt), ...nothingMeasured });
    expect(titles(content)).toEqual(['Cautions', 'How it was measured', 'Versions']);
    const texts = textsOf(content);
    expect(texts.filter((text) => /undefined|null|NaN|^$/.test(text))).toEqual([]);
    expect(content.verdict).toBeNull();
  });

  it('[RS2] no field that is left out of a full record leaves a gap behind', () => {
    const texts = textsOf(sheetContent(larkfieldSource()));
    expect(texts.filter((text) => /undefined|null|NaN|\[object|, ,|: $/.test(text))).toEqual([]);
  });

  it('[RS15] says in one line a group what matters and was left open, and nothing of what is recorded', () => {
    const gapsIn = (source: SheetSource): Record<string, string> =>
      Object.fromEntries(
        sheetContent(source).sections.flatMap(({ title, blocks }) =>
          blocks.flatMap((block) =>
            block.kind === 'text' && block.text.startsWith('Not recorded: ') ? [[title, block.text.slice(14)]] : [],
          ),
        ),
      );
    const source = larkfieldSource({ after: { hum: 'none', reversible: true } });
    expect(gapsIn(source)).toEqual({
      'What was fitted':
        'lamp type of right; viewing angle of right; shade; supply under this load; rating of the resistor.',
      'Checks after the swap':
        'supply; near the lamp after 30 min, cover on; AM noise; functions on the same line; check again on.',
      'How to go back': 'what to do.',
      'What was there before':
        'wiring; volts with the lamp out; chassis, centre tap; also on the line; with the lamp pulled; light path; ' +
        'cleaned since the reference; glass.',
    });
    // Recorded, and left out of this copy only.
    const named = { howToGoBack: 'Ask the owner', reversible: false };
    expect(gapsIn({ ...larkfieldSource({ after: named }), isShared: true })).not.toHaveProperty('How to go back');
    const { record } = larkfieldSource();
    const unchosen = { ...record, before: undefined, chosen: undefined } as typeof record;
    const gaps = gapsIn({ record: unchosen, ...nothingMeasured });
    expect(Object.keys(gaps)).toEqual(['What was there before']);
    expect(gaps['What was there before']).toMatch(/^lamp; lamps on the supply; wiring; supply; volts/);
  });

  it('[RS7] gives the words of the chosen trial, before and after with their plus-minus', () => {
    const [table] = tablesOf(sheetContent(larkfieldSource()), 'scale');
    expect(table.rows[0]).toEqual(['Evenness, 0 to 100', '88 ± 6', '68 ± 6', 'clearly uneven']);
    expect(textsOf(sheetContent(larkfieldSource())).some((text) => text.includes('cd/m'))).toBe(false);
  });

  it('[RS7] a side without a photo is said above the picture of the other', () => {
    const source = larkfieldSource();
    const above = (of: SheetSource): string => {
      const [drawing] = sheetContent(of).sections[0].blocks.filter(({ kind }) => kind === 'drawing');
      return (drawing.kind === 'drawing' && drawing.caption) || '';
    };
    expect(above(source)).toMatch(/^Before: the filament\. After: Frosted\. /);
    const record = { ...source.record, chosen: undefined } as typeof source.record;
    expect(above({ ...source, record })).toMatch(/^Before: the filament\. After: no photo of a chosen trial\. /);
    const measured = source.measured.filter(({ reading }) => reading.name === 'Frosted');
    expect(above({ ...source, measured })).toMatch(/^Before: no photo of the filament\. After: Frosted\. /);
  });

  it('[RS7] a figure that cannot be given is a dash with its reason beneath, and has no words', () => {
    const { evenness } = madeUpReading();
    const refused = { ...evenness, score: missing('the photo is clipped'), words: 'not to be told' };
    const content = sheetContent(
      withReading(larkfieldSource(), (name) => (name === 'Frosted' ? { evenness: refused } : {})),
    );
    const [table] = tablesOf(content, 'scale');
    expect(table.rows[0]).toEqual(['Evenness, 0 to 100', '88 ± 6', '–', '']);
    const [section] = content.sections;
    expect(section.blocks).toContainEqual({
      kind: 'text',
      tone: 'quiet',
      text: 'Evenness after: the photo is clipped.',
    });
    expect(content.verdict).not.toContain('not to be told');
  });

  it('[RS7] what a check says of both photos stands once, with its remedy', () => {
    const [section] = sheetContent(larkfieldSource()).sections;
    const lists = section.blocks.flatMap((block) => (block.kind === 'list' ? block.items : []));
    expect(lists).toHaveLength(1);
    expect(lists[0].text).toMatch(/^Before and after: The window fills 63 %/);
    expect(lists[0]).toMatchObject({ mark: 'warn', remedy: expect.stringContaining('Step back') });
  });

  it('[RS2, PN3] what was planned of a trial stands beside what was measured of it', () => {
    const source = larkfieldSource();
    const planned = { what: 'paper', window: 'meter', evenness: 60, evennessPlusMinus: 8 };
    const trials = source.record.trials.map((trial) => ({ ...trial, planned }));
    const texts = textsOf(sheetContent({ ...source, record: { ...source.record, trials } })).join(' ');
    // The trials of the made-up source reach 61 and 68.
    expect(texts).toContain('paper. As planned: forecast 60 ± 8, measured 61 ± 6.');
    expect(texts).toContain('paper. As planned: forecast 60 ± 8, measured 68 ± 6.');
  });

  it('[CO13] says what a step is beneath words that count in steps, and nowhere else', () => {
    const { colour } = madeUpReading();
    const counted = { ...colour, verdict: 'not told apart from the filament; not certifiable below 10 steps' };
    const noteIn = (verdict: typeof colour): boolean =>
      textsOf(sheetContent(withReading(larkfieldSource(), () => ({ colour: verdict })))).includes(stepNote);
    expect([noteIn(counted), noteIn({ ...colour, verdict: 'redder than the filament' })]).toEqual([true, false]);
  });

  it('[SP8] sizes of spots, which have no plus-minus, are explained beneath their table', () => {
    const [{ blocks }] = sheetContent(larkfieldSource()).sections;
    const at = blocks.findIndex((block) => block.kind === 'table' && block.columns.some(({ title }) => title === 'Size, mm'));
    expect(blocks[at + 1]).toMatchObject({ kind: 'text', text: expect.stringContaining('no plus-minus') as string });
  }); // prettier-ignore

  it('[RS8] trials that cannot be told apart share places', () => {
    const [table] = tablesOf(sheetContent(larkfieldSource()), 'All trials');
    const place = table.columns.findIndex(({ title }) => title === 'Place');
    expect(table.rows.map((row) => [row[0], row[place]])).toEqual([
      ['Bare, 8 mm', '1–2'],
      ['Frosted (chosen)', '1–2'],
    ]);
  });

  it('[RS8] without photos the figures that the record keeps are shown, and said to be those', () => {
    const kept = {
      trial: 'Frosted',
      window: 'scale',
      photo: 'c'.repeat(64),
      measuredAt: savedAt,
      program: 'Evendial 0.0.9',
      evenness: { value: 71.2, plusMinus: 4.4 },
      evennessWords: 'clearly uneven',
      redPrint: { value: null, plusMinus: null, reason: 'no red print' },
      redPrintWords: '',
      toReferenceUv: { value: 0.0091, plusMinus: 0.0042 },
      colourWords: '',
      gates: [],
    };
    const { record } = larkfieldSource({ readings: [kept] });
    const content = sheetContent({ record, ...nothingMeasured });
    expect(tablesOf(content, 'scale')[0].rows).toEqual([['After, Frosted', '71 ± 5', '–', '9 ± 5']]);
    expect(textsOf(content).some((text) => text.includes('measured with Evendial 0.0.9'))).toBe(true);
  });

  it('[RS9] every sheet has the cautions and says what its figures are', () => {
    const empty = sheetContent({ record: newUnit('one', 'M-4', savedAt), ...nothingMeasured });
    const texts = textsOf(empty).join('\n');
    for (const words of ['can kill', 'AC or DC', 'as a signal', 'Fuse', 'hot parts', 'Do not stare', 'photometer'])
      expect(texts).toContain(words);
  });

  it('[RS10] a shared sheet has no private word, and says so', () => {
    const source = larkfieldSource({
      owner: 'Quillfeather',
      serialNumber: 'SN-77123',
      notes: 'Zebrawood cabinet',
      before: { notes: 'privatebefore', supply: { senseTest: 'asked quillfeather to look' } },
      after: { notes: 'privateafter', howToGoBack: 'Ask SN-77123 first', hum: 'none' },
      parts: [{ name: 'LED', source: 'cornershop', notes: 'privatepart' }],
    });
    // The reading's photo, so that the day on which it was taken could be shown.
    const [{ reading }] = source.measured;
    const [entry] = reading.photos;
    const taken = { ...entry, sha256: 'a'.repeat(64), camera: { ...entry.camera, takenAt: '2024-02-29T11:12:13' } };
    const measured = source.measured.map((one) => ({ ...one, reading: { ...one.reading, photos: [taken] } }));
    const photos = source.record.photos.map((photo) => ({ ...photo, name: 'quillfeather.jpg', notes: 'privatephoto' }));
    const shared = sheetContent({ ...source, measured, record: { ...source.record, photos }, isShared: true });
    const texts = textsOf(shared).join('\n').toLowerCase();
    for (const word of ['quillfeather', '77123', 'zebrawood', 'private', 'cornershop', '.jpg', 'february'])
      expect(texts).not.toContain(word);
    expect(texts).toContain('a copy to be shared');
    expect(texts).toContain('hum');
    expect(texts).toContain('frosted');
    const own = textsOf(sheetContent({ ...source, measured, isShared: false })).join('\n');
    expect(own).toContain('29 February 2024');
    expect(own).toContain('Quillfeather');
    expect(own).not.toContain('A copy to be shared');
  });
});
