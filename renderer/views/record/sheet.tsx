import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { saveFiles } from '../../link/save-files';
import { useBook, useUnit } from '../book-context';
import { Caution } from '../shooting-guide';
import { JobLine } from '../unit/job-line';
import { useJob } from '../unit/use-job';
import { previewOf } from './sheet-preview';

type Paper = 'A4' | 'Letter';

/** The record sheet as it will be printed, and the ways to keep it. */
export function Sheet(): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const [paper, setPaper] = useState<Paper>('A4');
  const [share, setShare] = useState(false);
  const [html, setHtml] = useState<string | null>(null);
  const preview = useJob();
  const saving = useJob();
  const { id, revision } = record;
  // What is saved meanwhile would be measured a second time.
  const isBusy = preview.isRunning || saving.isRunning;

  const look = async (): Promise<void> => {
    setHtml(null);
    const file = await preview.run((options) => book.sheet({ unit: id, form: 'html', paper, share }, options));
    if (file) setHtml(new TextDecoder().decode(file.bytes));
  };
  useEffect(() => void look(), [id, revision, share]);
  const save = async (form: 'pdf' | 'html'): Promise<void> => {
    const file = await saving.run((options) => book.sheet({ unit: id, form, paper, share }, options));
    if (!file) return;
    saveFiles([file]);
    book.say(`${file.name} is written`);
  };
  return (
    <>
      <main class="well sheet-well" aria-label="Record sheet">
        {html === null ? (
          <div class="paper waiting">
            <JobLine job={preview} words="All photos of the unit are measured for the sheet" />
            {!preview.isRunning && (
              <button onClick={() => void look()}>{preview.error ? 'Try again' : 'Make the sheet'}</button>
            )}
          </div>
        ) : (
          <Paper html={html} />
        )}
      </main>
      <aside class="side" aria-label="The record sheet">
        <h1>Record sheet</h1>
        <p class="hint">
          For the owner, and for the next time: before and after at the same scale, figures with their plus-minus,
          lamps, resistors, supply, places, parts and notes.
        </p>
        <label class="field">
          Paper
          <select value={paper} onChange={(event) => setPaper(event.currentTarget.value as Paper)}>
            <option value="A4">A4</option>
            <option value="Letter">Letter</option>
          </select>
        </label>
        <label class="row">
          <input type="checkbox" checked={share} onChange={(event) => setShare(event.currentTarget.checked)} />
          <span>To be given away: without owner, serial number and notes</span>
        </label>
        <JobLine job={saving} words="The sheet is being written" />
        <Caution />
        <div class="last">
          {preview.isRunning && <p class="hint">It can be saved as soon as it is measured.</p>}
          <button class="go" data-save-pdf disabled={isBusy} onClick={() => void save('pdf')}>
            Save as PDF
          </button>
          <button disabled={isBusy} onClick={() => void save('html')}>
            Save as one page for the browser
          </button>
        </div>
      </aside>
    </>
  );
}

/** The sheet on white, apart from the styles of the page. */
function Paper({ html }: { readonly html: string }): JSX.Element {
  const paper = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!paper.current) return undefined;
    const { root, style, release } = previewOf(html);
    const shadow = paper.current.shadowRoot ?? paper.current.attachShadow({ mode: 'open' });
    shadow.adoptedStyleSheets = [style];
    shadow.replaceChildren(root);
    return release;
  }, [html]);
  return <div ref={paper} class="paper" data-sheet />;
}
