import { Fragment, type JSX } from 'preact';
import type { UnitWindow } from '../../../core/contract/unit-record';
import { sameSelection, type Selection } from '../../state/selection';
import { useBook, useUnit } from '../book-context';
import { PhotoCard, TrialCard } from './cards';
import { LampPlan } from './lamp-plan';
import { otherPhotos, referencePhoto, sizeWords, trialsOf } from './unit-facts';

interface StaveProps {
  readonly window: UnitWindow;
  readonly selection: Selection;
  readonly onSelect: (selection: Selection) => void;
  /** Lays its photos on the bench. */
  readonly onLay: (window: string) => void;
  readonly onNewTrial: (window: string) => void;
}

/** One window of the unit: its reference, what it is read with, its trials newest first, and the plan of the one in view. */
export function WindowStave({ window, selection, onSelect, onLay, onNewTrial }: StaveProps): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const { readOnly } = book.state.value;
  const reference = referencePhoto(record, window.name);
  const others = otherPhotos(record, window.name);
  const trials = trialsOf(record, window.name);
  const shared = { window, onSelect };
  const isPhoto = (sha256: string): boolean =>
    selection.kind === 'photo' && selection.window === window.name && selection.sha256 === sha256;
  const current = selection.kind === 'trial' && selection.window === window.name ? selection.trial : null;
  const self: Selection = { kind: 'window', window: window.name };
  return (
    <section class="stave" aria-label={window.name} data-window={window.name}>
      <header class="stave-head">
        <h2>
          <button class="plain" aria-pressed={sameSelection(selection, self)} onClick={() => onSelect(self)}>
            {window.name}
          </button>
        </h2>
        <span>{sizeWords(window)}</span>
        <span class="row">
          <button disabled={readOnly !== null} onClick={() => onNewTrial(window.name)}>
            New trial
          </button>
          <button disabled={!reference && trials.length === 0} onClick={() => onLay(window.name)}>
            Lay on the bench
          </button>
        </span>
      </header>
      <div class={`cards ${window.widthMm > 2 * window.heightMm ? '' : 'rounder'}`}>
        {reference ? (
          <PhotoCard {...shared} photo={reference} isCurrent={isPhoto(reference.sha256)} />
        ) : (
          <div class="dashed">
            <b>No filament reference yet</b>
            <span>
              Photograph the window with its old lamps, or with new ones of the same kind, and drop the photo here.
            </span>
          </div>
        )}
        {others.map((photo) => (
          <PhotoCard
            key={`${photo.sha256} ${photo.role} ${photo.trial ?? ''}`}
            {...shared}
            photo={photo}
            isCurrent={isPhoto(photo.sha256)}
          />
        ))}
        <div class="dashed">
          <b>Drop the next photo</b>
          <span>
            It is measured on the bench, and filed from there
            {readOnly === null ? '' : ' once this book can be written to'}.
          </span>
        </div>
        {trials.map((trial) => (
          <Fragment key={record.trials.indexOf(trial)}>
            <TrialCard {...shared} trial={trial} isCurrent={trial.name === current} />
            {trial.name === current && <LampPlan window={window} trial={trial} />}
          </Fragment>
        ))}
      </div>
    </section>
  );
}
