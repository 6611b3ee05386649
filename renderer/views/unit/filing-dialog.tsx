import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { PhotoId } from '../../../core/contract/bench';
import type { UnitId } from '../../../core/contract/book-verbs';
import type { PhotoRole, UnitRecord } from '../../../core/contract/unit-record';
import { CallFailed } from '../../link/bench-link';
import type { ReadingSettings } from '../../state/bench-state';
import { askedWord, type Filing } from '../../state/filings';
import { helpersOf, problemOfRow, proposeFiling, showsAnotherWindow, type FilingRow } from '../../state/propose-filing';
import { litByFilament, withWindow } from '../../state/settings';
import { Ask } from '../ask';
import { useBench } from '../bench-context';
import { useBook } from '../book-context';
import { PlusMinus } from '../figure-view';
import { lengthOfText } from '../outline/draft';
import { UnitChoice } from '../units/unit-choice';
import { Kinds, LengthField } from '../fields';
import { roleWords } from '../words';
import { JobLine } from './job-line';
import { useJob } from './use-job';

interface FilingProps {
  readonly isOpen: boolean;
  readonly onClose: () => void;
}

/** Measured first, filed later: photos of the bench become photos of a unit, with the readings that they have. */
export function FilingDialog({ isOpen, onClose }: FilingProps): JSX.Element {
  return (
    <Ask title="File into a unit" isOpen={isOpen} onClose={onClose} isWide>
      <FilingForm onClose={onClose} />
    </Ask>
  );
}

/** Another window than the unit has. */
const newWindow = '';

/** The record of the chosen unit; null while it is read, or when a new unit is to be begun. */
function useRecord(unit: UnitId | null): UnitRecord | null {
  const { book } = useBook();
  const [record, setRecord] = useState<UnitRecord | null>(null);
  useEffect(() => {
    let isWanted = true;
    setRecord(null);
    if (unit === null) return undefined;
    book.link.call('unitRead', { unit }).then(
      (read) => isWanted && setRecord(read),
      (error: unknown) => {
        if (!(error instanceof CallFailed)) throw error;
      },
    );
    return () => {
      isWanted = false;
    };
  }, [unit]);
  return record;
}

function FilingForm({ onClose }: { readonly onClose: () => void }): JSX.Element {
  const bench = useBench();
  const { book, places, filings } = useBook();
  const { photos, selected } = bench.state.value;
  const inView = selected === null ? null : filings.of(selected);
  // The unit in hand: that of the photo in view, else the one that was opened last, else that of any photo on the bench.
  const onBench = photos.map(({ id }) => filings.of(id)).find((filing) => filing !== null);
  const opened = book.state.value.record?.id;
  const [unit, setUnit] = useState<UnitId | null>(inView?.unit ?? opened ?? onBench?.unit ?? null);
  const inHand = [inView, onBench].find((filing) => filing?.unit === unit);
  /** Made by an attempt that came no further: the next one files into it. */
  const made = useRef<UnitRecord | null>(null);
  const [unitName, setUnitName] = useState('');
  const record = useRecord(unit);
  const [window, setWindow] = useState(inHand?.window ?? newWindow);
  const [windowName, setWindowName] = useState('scale');
  // Only a size that somebody measured: one that is assumed must not get into the record by itself.
  const given = photos.find(({ settings }) => settings.window.sizeMm !== null)?.settings.window.sizeMm;
  const [width, setWidth] = useState(given ? String(given.widthMm) : '');
  const [height, setHeight] = useState(given ? String(given.heightMm) : '');
  const [rows, setRows] = useState<readonly FilingRow[]>([]);
  const job = useJob();

  const filingOf = (id: PhotoId): (Filing & { isChanged: boolean }) | null => {
    const photo = bench.photo(id);
    const filing = filings.of(id);
    return photo && filing && { ...filing, isChanged: filing.asked !== askedWord(bench.askOf(photo)) };
  };
  useEffect(() => {
    if (unit !== null && record === null) return;
    setRows(proposeFiling(photos, record, filingOf, bench.photo(selected)));
    const windows = record?.windows ?? [];
    if (!windows.some(({ name }) => name === window)) setWindow(windows.at(0)?.name ?? newWindow);
  }, [unit, record]);

  const wanted = rows.filter(({ isWanted }) => isWanted);
  const [widthMm, heightMm] = [lengthOfText(width), lengthOfText(height)];
  const isNewWindow = window === newWindow;
  const hasOther = photos.some((photo) => showsAnotherWindow(photo, bench.photo(selected)));
  const problems = rows.map((row) => {
    const photo = bench.photo(row.photo);
    return photo ? problemOfRow(row, rows, photo) : null;
  });
  const isReady =
    wanted.length > 0 &&
    problems.every((problem) => problem === null) &&
    (unit === null ? unitName.trim() !== '' : record !== null) &&
    (!isNewWindow || (windowName.trim() !== '' && widthMm !== null && heightMm !== null)) &&
    !job.isRunning;

  /** What the user has said here is how the photos are read from now on; only then are they filed. */
  const readAsSaid = async (): Promise<void> => {
    const helpers = helpersOf(rows);
    const size = isNewWindow && widthMm !== null && heightMm !== null ? { widthMm, heightMm } : null;
    const known = record?.windows.find(({ name }) => name === window);
    const sizeMm = size ?? (known ? { widthMm: known.widthMm, heightMm: known.heightMm } : null);
    const after = new Map<PhotoId, ReadingSettings>();
    for (const { photo: id, role } of wanted) {
      const photo = bench.photo(id);
      if (!photo || (role !== 'trial' && role !== 'reference')) continue;
      const said = settingsAsSaid(photo.settings, id, role, helpers, sizeMm);
      if (JSON.stringify(said) !== JSON.stringify(photo.settings)) after.set(id, said);
    }
    bench.changeAll([...after.keys()], 'filed', (now, id) => after.get(id) ?? now);
    await bench.settled(wanted.map(({ photo }) => photo));
  };

  const file = async (): Promise<void> => {
    const filed = await job.run(async (options) => {
      await readAsSaid();
      if (options.signal?.aborted) return null;
      const into =
        record ?? made.current ?? (await book.link.call('unitCreate', { name: unitName.trim(), like: null }));
      if (!record) made.current = into;
      const name = isNewWindow ? windowName.trim() : window;
      const asks = wanted.flatMap(({ photo: id, role, trial }) => {
        const photo = bench.photo(id);
        if (!photo) return [];
        const as = { unit: into.id, window: name, role, trial: role === 'trial' ? trial.trim() : null };
        return [{ measure: bench.askOf(photo), ...as }];
      });
      const saved = await book.file(asks, options);
      filings.put(
        asks.map(({ measure, unit: id, ...as }) => [
          measure.photo,
          { ...as, unit: id, unitName: saved.name, asked: askedWord(measure) },
        ]),
      );
      return saved;
    });
    if (!filed) return;
    bench.say(`${wanted.length === 1 ? 'The photo is' : `${wanted.length} photos are`} filed in ${filed.name}`);
    onClose();
    places.goTo({ at: 'unit', unit: filed.id, view: 'windows' });
  };

  const change = (photo: PhotoId, part: Partial<FilingRow>): void =>
    setRows(rows.map((row) => (row.photo === photo ? { ...row, ...part } : row)));
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (isReady) void file();
      }}
    >
      <div class="filing-where">
        <UnitChoice label="Unit" none="a new unit" value={unit} onChange={setUnit} />
        {unit === null && (
          <label class="field">
            Name of the new unit
            <input
              value={unitName}
              placeholder="maker and model"
              maxLength={200}
              data-unit-name
              onInput={(event) => setUnitName(event.currentTarget.value)}
            />
          </label>
        )}
        <label class="field">
          Window
          <select value={window} onChange={(event) => setWindow(event.currentTarget.value)}>
            {(record?.windows ?? []).map(({ name, widthMm: wide, heightMm: high }) => (
              <option key={name} value={name}>
                {name}, {wide} × {high} mm
              </option>
            ))}
            <option value={newWindow}>a new window</option>
          </select>
        </label>
        {isNewWindow && (
          <>
            <label class="field">
              Its name
              <input value={windowName} maxLength={200} onInput={(event) => setWindowName(event.currentTarget.value)} />
            </label>
            <LengthField label="Width, by caliper" text={width} onChange={setWidth} />
            <LengthField label="Height" text={height} onChange={setHeight} />
          </>
        )}
      </div>
      <div class="scroll-across">
        <table class="filing-rows">
          <thead>
            <tr>
              <th scope="col">File</th>
              <th scope="col">Photo</th>
              <th scope="col">Evenness</th>
              <th scope="col">It is</th>
              <th scope="col">Trial</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row, i) => (
              <Row
                key={row.photo}
                row={row}
                problem={problems[i]}
                trials={record?.trials.map(({ name }) => name) ?? []}
                onChange={(part) => change(row.photo, part)}
              />
            ))}
          </tbody>
        </table>
      </div>
      <datalist id="known-trials">
        {(record?.trials ?? []).map(({ name }) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <p class="hint">
        Photos are kept byte for byte. Trials are read with the reference and the lamp-off photo named here, and
        measured again where that is new.
      </p>
      {isNewWindow && (widthMm === null || heightMm === null) && (
        <p class="hint">
          A new window needs its size, by caliper: figures of an assumed one would stand in the record.
        </p>
      )}
      {hasOther && (
        <p class="hint">
          Photos that show another window than the one in view are not ticked: take one of them into view, and file it
          as that window.
        </p>
      )}
      <JobLine job={job} words="The photos are being measured as said here, and filed" />
      <p class="row">
        <button class="go" type="submit" data-file disabled={!isReady}>
          {wanted.length === 0
            ? 'Nothing to file'
            : wanted.length === 1
              ? 'File the photo'
              : `File ${wanted.length} photos`}
        </button>
        <button type="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}

function settingsAsSaid(
  settings: ReadingSettings,
  id: PhotoId,
  role: PhotoRole,
  { reference, ...helpers }: ReturnType<typeof helpersOf>,
  sizeMm: ReadingSettings['window']['sizeMm'],
): ReadingSettings {
  const { lampOff, flatField, printPhoto } = settings.helpers;
  const read: ReadingSettings = {
    ...settings,
    reference: role === 'reference' ? null : (reference ?? settings.reference),
    light: role === 'reference' ? litByFilament(settings).light : settings.light,
    helpers: {
      lampOff: helpers.lampOff ?? lampOff,
      flatField: helpers.flatField ?? flatField,
      printPhoto: helpers.printPhoto ?? printPhoto,
    },
  };
  const isOwn = read.reference === id ? { ...read, reference: null } : read;
  return sizeMm === null ? isOwn : withWindow(isOwn, { sizeMm });
}

function Row(props: {
  readonly row: FilingRow;
  readonly problem: string | null;
  readonly trials: readonly string[];
  readonly onChange: (part: Partial<FilingRow>) => void;
}): JSX.Element | null {
  const { row, problem, onChange } = props;
  const bench = useBench();
  const { filings } = useBook();
  const photo = bench.photo(row.photo);
  if (!photo) return null;
  const known = filings.of(photo.id);
  const isChanged = known !== null && known.asked !== askedWord(bench.askOf(photo));
  return (
    <>
      <tr data-filing={photo.name}>
        <td>
          <input
            type="checkbox"
            checked={row.isWanted}
            aria-label={`File ${photo.name}`}
            onChange={(event) => onChange({ isWanted: event.currentTarget.checked })}
          />
        </td>
        <td class="cut">
          {photo.name}
          {known && (
            <small>
              {' '}
              lies in {known.unitName}
              {isChanged ? ', read differently since' : ''}
            </small>
          )}
        </td>
        <td>
          {photo.reading && photo.status.kind !== 'failed' ? <PlusMinus figure={photo.reading.evenness.score} /> : ''}
        </td>
        <td>
          <select
            value={row.role}
            aria-label={`${photo.name} is`}
            onChange={(event) => onChange({ role: event.currentTarget.value as PhotoRole })}
          >
            <Kinds words={roleWords} />
          </select>
        </td>
        <td>
          {row.role === 'trial' && (
            <input
              value={row.trial}
              list="known-trials"
              maxLength={200}
              aria-label={`Trial that ${photo.name} shows`}
              aria-invalid={problem !== null}
              onInput={(event) => onChange({ trial: event.currentTarget.value })}
            />
          )}
        </td>
      </tr>
      {problem !== null && (
        <tr>
          <td />
          <td colSpan={4} class="wrong" role="alert">
            {problem}
          </td>
        </tr>
      )}
    </>
  );
}
