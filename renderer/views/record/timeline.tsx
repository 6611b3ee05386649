import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { UnitRevision } from '../../../core/contract/book-verbs';
import { useBook, useUnit } from '../book-context';
import { whenWords } from '../unit/unit-facts';
import { timelineWords } from './timeline-words';

/** So many revisions are read at first; older ones on asking. */
const firstRevisions = 40;
const moreRevisions = 200;
/** A revision that filed many photos is told by its first lines. */
const mostLines = 8;

/** What happened to the unit, the newest first. */
export function Timeline(): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const [most, setMost] = useState(firstRevisions);
  const [revisions, setRevisions] = useState<readonly UnitRevision[] | null>(null);
  useEffect(() => {
    let isWanted = true;
    void book.timeline(record.id, most).then((read) => {
      if (isWanted && read) setRevisions(read);
    });
    return () => {
      isWanted = false;
    };
  }, [record.id, record.revision, most]);
  const { readOnly } = book.state.value;
  return (
    <main class="well timeline" aria-label="Time line">
      <h1>Time line</h1>
      <p class="row">
        <button disabled={record.undo === null || readOnly !== null} onClick={() => void book.restore('undo')}>
          Take back the last change <kbd>Ctrl Z</kbd>
        </button>
        <button disabled={record.redo === null || readOnly !== null} onClick={() => void book.restore('redo')}>
          Do it again <kbd>Ctrl Shift Z</kbd>
        </button>
      </p>
      <p>
        Every change is a revision of its own; nothing that was saved is ever taken away, so going back adds one more.
      </p>
      {revisions === null ? (
        <p role="status">The revisions are being read.</p>
      ) : (
        <ol class="revisions">
          {revisions.map((revision) => (
            <Revision key={revision.revision} revision={revision} />
          ))}
        </ol>
      )}
      {revisions !== null && revisions.length >= most && (
        <button onClick={() => setMost(most + moreRevisions)}>Show older revisions</button>
      )}
    </main>
  );
}

function Revision({ revision }: { readonly revision: UnitRevision }): JSX.Element {
  const lines = timelineWords(revision);
  const shown = lines.slice(0, mostLines);
  return (
    <li>
      <span class="when">
        <b>{revision.revision}</b> {whenWords(revision.savedAt, new Date())}
      </span>
      <ul>
        {shown.map((words) => (
          <li key={words}>{words}</li>
        ))}
        {lines.length > shown.length && (
          <li>
            <details>
              <summary>{lines.length - shown.length} more</summary>
              <ul>
                {lines.slice(mostLines).map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            </details>
          </li>
        )}
      </ul>
    </li>
  );
}
