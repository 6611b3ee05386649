import type { JSX } from 'preact';
import type { Figure } from '../../../core/contract/figure';
import type { UnitPhoto, UnitReading, UnitTrial, UnitWindow } from '../../../core/contract/unit-record';
import type { Selection } from '../../state/selection';
import { useUnit } from '../book-context';
import { PlusMinus } from '../figure-view';
import { Glyph } from '../glyph';
import { roleWords } from '../words';
import { readingOf, trialPhoto, trialWords } from './unit-facts';
import { WindowPicture } from './window-picture';

const inThousandths = 1000;

interface CardProps {
  readonly window: UnitWindow;
  readonly isCurrent: boolean;
  readonly onSelect: (selection: Selection) => void;
}

/** Value, plus-minus and the word of judgement of each leading figure. */
function ThreeFigures({ reading, why }: { readonly reading: UnitReading | null; readonly why: string }): JSX.Element {
  const none: Figure = { value: null, plusMinus: null, reason: why };
  const rows: readonly (readonly [string, Figure, number, string])[] = [
    ['evenness', reading?.evenness ?? none, 1, reading?.evennessWords ?? ''],
    ['red print, %', reading?.redPrint ?? none, 1, reading?.redPrintWords ?? ''],
    ['colour, 10⁻³', reading?.toReferenceUv ?? none, inThousandths, reading?.colourWords ?? ''],
  ];
  return (
    <span class="three-figures">
      {rows.map(([label, figure, scale, words]) => (
        <span key={label} title={words}>
          <PlusMinus figure={figure} scale={scale} />
          <small>{label}</small>
        </span>
      ))}
      {reading && <span class="word">{reading.evennessWords}</span>}
      {reading && <Gates reading={reading} />}
    </span>
  );
}

/** How many checks of the photo were raised; the bench says which. */
function Gates({ reading }: { readonly reading: UnitReading }): JSX.Element | null {
  const refused = reading.gates.filter(({ level }) => level === 'refuse').length;
  const warned = reading.gates.filter(({ level }) => level === 'warn').length;
  if (refused + warned === 0) return null;
  const count = (many: number, one: string, more: string): string => (many === 1 ? one : `${many} ${more}`);
  return (
    <small class="gates-raised">
      {refused > 0 && (
        <span>
          <Glyph kind="refuse" /> {count(refused, 'a check refuses a figure', 'checks refuse figures')}
        </span>
      )}
      {warned > 0 && (
        <span>
          <Glyph kind="warn" /> {count(warned, 'one check warns', 'checks warn')}
        </span>
      )}
    </small>
  );
}

function Picture(props: {
  readonly window: UnitWindow;
  readonly photo: UnitPhoto | null;
  readonly label: string;
}): JSX.Element {
  const { window, photo, label } = props;
  const { id, revision } = useUnit();
  const aspect = window.widthMm / window.heightMm;
  if (!photo) {
    return (
      <span class="no-picture none" style={{ aspectRatio: String(aspect) }}>
        no photo yet
      </span>
    );
  }
  return (
    <WindowPicture
      asked={{ unit: id, sha256: photo.sha256, window: window.name }}
      revision={revision}
      label={label}
      instead="no picture"
      aspect={aspect}
      isRound={window.outline?.kind === 'ellipse'}
    />
  );
}

/** One arrangement that was tried. */
export function TrialCard(props: CardProps & { readonly trial: UnitTrial }): JSX.Element {
  const { window, trial, isCurrent, onSelect } = props;
  const record = useUnit();
  const photo = trialPhoto(record, window.name, trial.name);
  const isChosen = record.chosen?.trial === trial.name;
  const reading = readingOf(record, window.name, trial.name);
  return (
    <button
      class={`card ${isChosen ? 'chosen' : ''}`}
      aria-pressed={isCurrent}
      data-trial={trial.name}
      onClick={() => onSelect({ kind: 'trial', window: window.name, trial: trial.name })}
    >
      <Picture window={window} photo={photo} label={`${window.name} in ${trial.name}`} />
      <span class="card-text">
        <span class="name">
          <b title={trial.name}>{trial.name}</b>
          {isChosen && <span class="mark">chosen</span>}
        </span>
        <span class="cut quiet" title={trialWords(trial)}>
          {trialWords(trial)}
        </span>
        <ThreeFigures reading={reading} why={photo ? 'not measured yet' : 'no photo of it yet'} />
      </span>
    </button>
  );
}

/** The reference, or a photo that others are read with. */
export function PhotoCard(props: CardProps & { readonly photo: UnitPhoto }): JSX.Element {
  const { window, photo, isCurrent, onSelect } = props;
  const record = useUnit();
  const isReference = photo.role === 'reference';
  const { sha256, role, trial = null } = photo;
  return (
    <button
      class={`card ${isReference ? 'reference' : ''}`}
      aria-pressed={isCurrent}
      data-role={role}
      onClick={() => onSelect({ kind: 'photo', window: window.name, sha256, role, trial })}
    >
      <Picture window={window} photo={photo} label={`${window.name}, ${roleWords[role]}`} />
      <span class="card-text">
        <span class="name">
          <b>{capital(roleWords[role])}</b>
        </span>
        <span class="cut quiet" title={photo.name}>
          {trial === null ? photo.name : `for ${trial} only: ${photo.name}`}
        </span>
        {isReference && (
          <ThreeFigures reading={readingOf(record, window.name, null)} why="the reference is not measured yet" />
        )}
      </span>
    </button>
  );
}

export const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
