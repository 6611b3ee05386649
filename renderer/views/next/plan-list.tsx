import type { JSX } from 'preact';
import type { PhotoRole } from '../../../core/contract/unit-record';
import { plannedAgainstMeasured } from '../../../core/display/planned-words';
import { editsOfPlan, type Plan } from '../../state/plans';
import { CallFailed } from '../../link/bench-link';
import { useBench } from '../bench-context';
import { useBook } from '../book-context';
import type { MeasuredPhotoOnBench, PhotoOnBench } from '../../state/bench-state';
import { triesSince } from '../../state/tries-since';
import { PlusMinus } from '../figure-view';

interface PlanListProps {
  /** Measured photos of the window in view, newest first. */
  readonly photos: readonly MeasuredPhotoOnBench[];
  readonly roleOf: (photo: PhotoOnBench) => PhotoRole;
}

/** Plans of this window: what was forecast, and beside it what the next photo measured. */
export function PlanList({ photos, roleOf }: PlanListProps): JSX.Element | null {
  const bench = useBench();
  const { plans, filings, book } = useBook();
  const mine = plans.all.value.filter(({ photo }) => photos.some(({ id }) => id === photo));
  if (mine.length === 0) return null;
  const file = async (plan: Plan): Promise<void> => {
    const filing = filings.of(plan.photo);
    if (!filing) return;
    try {
      const { trials } = await book.link.call('unitRead', { unit: filing.unit });
      let number = trials.length + 1;
      while (trials.some(({ name }) => name === `Trial ${number}`)) number++;
      const trial = `Trial ${number}`;
      const from = trials.some(({ name }) => name === filing.trial) ? filing.trial : null;
      await book.link.call('unitEdit', {
        unit: filing.unit,
        edits: editsOfPlan(plan, trial, { window: filing.window, from }),
      });
      plans.put({ ...plan, filedIn: { unit: filing.unit, unitName: filing.unitName, trial } });
      bench.say(`${trial} is planned in ${filing.unitName}`);
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      bench.say(`${error.message} ${error.remedy}`);
    }
  };
  return (
    <section class="plans" aria-label="Planned trials">
      <h3>Planned</h3>
      {mine.map((plan) => {
        const tried = triesSince(plan, photos, roleOf).at(-1);
        const filing = filings.of(plan.photo);
        const line = tried && plannedAgainstMeasured(plan.evenness, tried.reading.evenness.score);
        return (
          <article key={plan.id} data-plan>
            <p>
              <b>{plan.what}</b>
            </p>
            {plan.mix ? (
              <p>Worked out beside {plan.photoName}.</p>
            ) : (
              <p>
                Evenness <PlusMinus figure={plan.evenness} /> forecast from {plan.photoName}.
              </p>
            )}
            {plan.mix ? (
              <p class="hint" data-mix-tried={tried?.name}>
                {tried
                  ? `${tried.name} shows it: the lamp mix is corrected by it.`
                  : 'Build it and drop its photo: the lamp mix is then corrected by it.'}
              </p>
            ) : line && tried ? (
              <p data-planned-measured>
                {tried.name}: {line}
              </p>
            ) : (
              <p class="hint">Drop the photo of the try: it is held against the forecast.</p>
            )}
            <p class="row">
              {plan.filedIn ? (
                <span class="hint">
                  {plan.filedIn.trial} of {plan.filedIn.unitName}
                </span>
              ) : filing ? (
                <button onClick={() => void file(plan)} data-file-plan>
                  Plan it in {filing.unitName}
                </button>
              ) : (
                <span class="hint">Kept on the bench; file the photo into a unit to plan it there.</span>
              )}
              <button class="plain" onClick={() => plans.drop(plan.id)}>
                Drop
              </button>
            </p>
          </article>
        );
      })}
    </section>
  );
}
