import type { JSX } from 'preact';
import type { BookEntry } from '../../../core/contract/book-verbs';
import type { Figure } from '../../../core/contract/figure';
import type { UnitRecord, UnitWindow } from '../../../core/contract/unit-record';
import { useBook } from '../book-context';
import { PlusMinus } from '../figure-view';
import { Glyph } from '../glyph';
import { readingOf, referencePhoto, shownTrial, trialPhoto, whenWords } from '../unit/unit-facts';
import { WindowPicture } from '../unit/window-picture';

type Listed = Extract<BookEntry, { name: string }>;

/** All windows of the book are drawn to one scale; what is longer than this fills the column. */
const longestMm = 92;
const highestMm = 36;

function Pictured(props: {
  readonly record: UnitRecord;
  readonly window: UnitWindow;
  readonly sha256: string | null;
  readonly label: string;
  readonly instead: string;
}): JSX.Element {
  const { record, window, sha256, label, instead } = props;
  const scale = Math.min(1, longestMm / window.widthMm, highestMm / window.heightMm);
  const aspect = window.widthMm / window.heightMm;
  return (
    <span class="pictured" style={{ width: `${((100 * scale * window.widthMm) / longestMm).toFixed(1)}%` }}>
      {sha256 === null ? (
        <span class="no-picture none" style={{ aspectRatio: String(aspect) }}>
          {instead}
        </span>
      ) : (
        <WindowPicture
          asked={{ unit: record.id, sha256, window: window.name }}
          revision={record.revision}
          label={label}
          instead="no picture"
          aspect={aspect}
          isRound={window.outline?.kind === 'ellipse'}
        />
      )}
    </span>
  );
}

const inThousandths = 1000;

function Figures({ record, window }: { readonly record: UnitRecord; readonly window: UnitWindow }): JSX.Element {
  const trial = shownTrial(record, window.name);
  const reading = trial && readingOf(record, window.name, trial.name);
  const filament = readingOf(record, window.name, null);
  const missing: Figure = { value: null, plusMinus: null, reason: trial ? 'not measured' : 'no trial yet' };
  return (
    <>
      <span class="figures" data-label="Evenness">
        <PlusMinus figure={reading?.evenness ?? missing} />
        {filament && (
          <small>
            <PlusMinus figure={filament.evenness} /> filament
          </small>
        )}
      </span>
      <span class="figures" data-label="Red print, %">
        <PlusMinus figure={reading?.redPrint ?? missing} />
      </span>
      <span class="figures" data-label="Colour, 10⁻³ u′v′">
        <PlusMinus figure={reading?.toReferenceUv ?? missing} scale={inThousandths} />
      </span>
    </>
  );
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

function Standing({ entry }: { readonly entry: Listed }): JSX.Element {
  const { trials, photos, chosen, windows } = entry;
  return (
    <span class="standing">
      <b>{chosen !== null ? 'Chosen' : trials > 0 ? 'On trial' : 'Begun'}</b>
      <span class="cut" title={chosen ?? ''}>
        {chosen ?? counted(trials, 'trial', 'trials')}
      </span>
      <small>
        {chosen !== null && `${counted(trials, 'trial', 'trials')}, `}
        {counted(photos, 'photo', 'photos')}
        {windows.length > 1 ? `, ${windows.length} windows` : ''}
      </small>
    </span>
  );
}

/** One unit of the book: who it is, its first window by filament and by the chosen trial, its figures. */
export function UnitRow({ entry }: { readonly entry: Listed }): JSX.Element {
  const { book } = useBook();
  void book.arrived.value;
  const record = book.recordOf(entry.id, entry.revision);
  const window = record?.windows.at(0);
  const trial = record && window ? shownTrial(record, window.name) : null;
  const about = [record?.serialNumber, record?.owner].filter((part) => part !== undefined);
  return (
    <>
      <span class="who">
        <b>{entry.name}</b>
        {about.map((part) => (
          <span key={part} class="cut">
            {part}
          </span>
        ))}
        <small>{whenWords(entry.savedAt, new Date())}</small>
      </span>
      <span class="by-filament">
        {record && window && (
          <Pictured
            record={record}
            window={window}
            sha256={referencePhoto(record, window.name)?.sha256 ?? null}
            label={`${window.name} with its filament lamps`}
            instead="no reference yet"
          />
        )}
      </span>
      <span class="by-trial">
        {record && window && (
          <Pictured
            record={record}
            window={window}
            sha256={trial ? (trialPhoto(record, window.name, trial.name)?.sha256 ?? null) : null}
            label={`${window.name} with ${trial?.name ?? ''}`}
            instead="no trial yet"
          />
        )}
        {record && !window && <span class="no-picture none wide">no window yet</span>}
      </span>
      {record && window ? (
        <Figures record={record} window={window} />
      ) : (
        <>
          <span class="figures" />
          <span class="figures" />
          <span class="figures" />
        </>
      )}
      <Standing entry={entry} />
    </>
  );
}

/** A record that this program cannot read: the others can be used. */
export function UnreadableRow({ entry }: { readonly entry: Extract<BookEntry, { error: string }> }): JSX.Element {
  return (
    <span class="who unreadable">
      <b>
        <Glyph kind="refuse" /> {entry.id}
      </b>
      <span>{entry.error}</span>
    </span>
  );
}
