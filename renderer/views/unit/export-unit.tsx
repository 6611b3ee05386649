import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { saveFiles } from '../../link/save-files';
import { Ask } from '../ask';
import { useBook, useUnit } from '../book-context';
import { Glyph } from '../glyph';
import { JobLine } from './job-line';
import { useJob } from './use-job';

/** The unit in one file: for another machine, or to be given away. */
export function ExportDialog(props: { readonly isOpen: boolean; readonly onClose: () => void }): JSX.Element {
  return (
    <Ask title="Save the unit as one file" isOpen={props.isOpen} onClose={props.onClose}>
      <ExportForm onClose={props.onClose} />
    </Ask>
  );
}

function ExportForm({ onClose }: { readonly onClose: () => void }): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const [share, setShare] = useState(false);
  const [leftOut, setLeftOut] = useState<readonly string[]>([]);
  const job = useJob();
  const write = async (): Promise<void> => {
    const file = await job.run((options) => book.exportUnit(record.id, share, options));
    if (!file) return;
    saveFiles([file]);
    book.say(`${file.name} is written`);
    setLeftOut(file.leftOut);
    if (file.leftOut.length === 0) onClose();
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      <label class="row">
        <input type="radio" name="copy" checked={!share} onChange={() => setShare(false)} />
        <span>
          <b>Everything</b>: all photos byte for byte, every revision. For your own other machine.
        </span>
      </label>
      <label class="row">
        <input type="radio" name="copy" checked={share} onChange={() => setShare(true)} />
        <span>
          <b>To be given away</b>: no owner, serial numbers and notes; photos made again without place, person and date.
        </span>
      </label>
      {leftOut.length > 0 && (
        <p role="alert">
          <Glyph kind="warn" /> The file is written. Photos that could not be made again without what they tell of you
          were left out of it: {leftOut.join(', ')}.
        </p>
      )}
      <JobLine job={job} words="The file is being written" />
      <p class="row">
        <button class="go" type="submit" disabled={job.isRunning}>
          Write the file
        </button>
        <button type="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}
