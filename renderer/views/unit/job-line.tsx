import type { JSX } from 'preact';
import { Glyph } from '../glyph';
import type { Job } from './use-job';

/** How far a job is, and how to stop it; or why it failed. */
export function JobLine({ job, words }: { readonly job: Job; readonly words: string }): JSX.Element | null {
  if (job.isRunning) {
    const { progress } = job;
    const counted =
      progress && progress.photosInAll > 1
        ? `, photo ${Math.min(progress.photosDone + 1, progress.photosInAll)} of ${progress.photosInAll}`
        : '';
    return (
      <div class="job">
        <p role="status">
          {words}
          {counted}
        </p>
        <progress
          {...(progress ? { value: progress.photosDone, max: Math.max(1, progress.photosInAll) } : {})}
          aria-label={words}
        />
        <button type="button" onClick={() => job.cancel()}>
          Stop
        </button>
      </div>
    );
  }
  if (job.error === null || job.error.kind === 'cancelled') return null;
  return (
    <p class="job-failed" role="alert">
      <Glyph kind="refuse" /> <b>{job.error.message}</b> {job.error.remedy}
    </p>
  );
}
