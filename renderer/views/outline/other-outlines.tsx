import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { FoundOutline } from '../../../core/contract/measure';
import { CallFailed } from '../../link/bench-link';
import type { PhotoOnBench } from '../../state/bench-state';
import { withWindow } from '../../state/settings';
import { useBench } from '../bench-context';

/** Other lit windows in the same photo: a unit often shows two at once. */
export function OtherOutlines({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  const [candidates, setCandidates] = useState<readonly FoundOutline[] | null>(null);
  const [problem, setProblem] = useState('');
  const search = async (): Promise<void> => {
    try {
      const found = await bench.link.call('find', { photo: photo.id });
      if ('error' in found) setProblem(`${found.error.message} ${found.error.remedy}`);
      else setCandidates(found.candidates);
    } catch (error) {
      if (!(error instanceof CallFailed)) throw error;
      setProblem(`${error.message} ${error.remedy}`);
    }
  };
  const take = ({ corners, outline }: FoundOutline, n: number): void =>
    bench.changeSettings(photo.id, `outline ${n} of those found`, (settings) =>
      withWindow(settings, {
        cornersPx: corners.map(({ column, row }) => [column, row] as const),
        shape: { kind: outline },
        sizeMm: null,
      }),
    );
  return (
    <section>
      <h3>Other windows in this photo</h3>
      {candidates === null ? (
        <button onClick={() => void search()}>Show all that were found</button>
      ) : (
        <ul>
          {candidates.map((candidate, i) => (
            <li key={i} class="row apart">
              <span class="hint">
                {i + 1}. {candidate.outline}, at {candidate.corners[0].column.toFixed(0)},{' '}
                {candidate.corners[0].row.toFixed(0)}: {candidate.confidence >= 0.5 ? 'sure' : 'doubtful'} (
                {candidate.confidence.toFixed(2)})
              </span>
              <button class="plain" onClick={() => take(candidate, i + 1)}>
                Take it
              </button>
            </li>
          ))}
          {candidates.length === 0 && <li class="hint">None was found.</li>}
        </ul>
      )}
      {problem !== '' && (
        <p class="hint" role="alert">
          {problem}
        </p>
      )}
    </section>
  );
}
