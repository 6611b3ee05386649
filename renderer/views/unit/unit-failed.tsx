import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { BenchError } from '../../../core/contract/bench';
import type { BookVerbs, UnitId } from '../../../core/contract/book-verbs';
import { saveFiles } from '../../link/save-files';
import { useBook } from '../book-context';
import { Glyph } from '../glyph';
import { JobLine } from './job-line';
import { useJob } from './use-job';

const countOf = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** What was saved of a unit that cannot be read, and what was not. */
function savedText({ name, photos, damagedPhotos, unreadable }: BookVerbs['unitLeftovers']['answers']): string {
  const damaged = damagedPhotos === 0 ? '' : `, ${countOf(damagedPhotos, 'photo')} that are damaged apart from these`;
  const missing = unreadable === 0 ? '' : ` The disk did not give ${countOf(unreadable, 'file')}.`;
  return `${name} holds ${countOf(photos, 'whole photo')}${damaged}, and the record as it is.${missing}`;
}

/** A unit that cannot be read: why, what is left of it, and what can be done here. */
export function UnitFailed({ unit, error }: { readonly unit: UnitId; readonly error: BenchError }): JSX.Element {
  const { book, places } = useBook();
  const repair = useJob();
  const saving = useJob();
  const [saved, setSaved] = useState<string | null>(null);
  // A repair that found nothing whole to go on from knows more than the first look: it takes its place.
  const isLost = repair.error?.code === 'UNIT_UNREADABLE';
  const { code, message, remedy } = isLost && repair.error ? repair.error : error;
  const save = async (): Promise<void> => {
    setSaved(null);
    const file = await saving.run((options) => book.leftovers(unit, options));
    if (!file) return;
    saveFiles([file]);
    setSaved(savedText(file));
  };
  return (
    <main class="well">
      <div class="book-error" role="alert">
        <h1>
          <Glyph kind="refuse" /> {message}
        </h1>
        <p>{remedy}</p>
        <p class="row">
          {code === 'RECORD_DAMAGED' && (
            <button
              class="go"
              disabled={repair.isRunning || book.state.value.readOnly !== null}
              onClick={() => void repair.run((options) => book.repair(unit, options))}
              data-repair
            >
              Repair this unit
            </button>
          )}
          {(isLost || code === 'RECORD_DAMAGED') && (
            <button
              class={isLost ? 'go' : ''}
              disabled={saving.isRunning || repair.isRunning}
              onClick={() => void save()}
              data-leftovers
            >
              Save what is left
            </button>
          )}
          <button onClick={() => void book.open(unit)}>Try again</button>
          <button onClick={() => places.goTo({ at: 'units' })}>To all units</button>
        </p>
        {!isLost && <JobLine job={repair} words="Every photo and revision of the unit is being checked" />}
        <JobLine job={saving} words="What is left of the unit is being put into one file" />
        {saved !== null && <p role="status">{saved}</p>}
      </div>
    </main>
  );
}
