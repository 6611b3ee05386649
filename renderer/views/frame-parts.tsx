import type { JSX } from 'preact';
import type { BenchError } from '../../core/contract/bench';
import type { Bench } from '../state/bench';
import { Glyph } from './glyph';

/** The host does not know this page, or is gone. */
export function NotStarted({ error }: { readonly error: BenchError }): JSX.Element {
  return (
    <main class="well empty">
      <div class="target" role="alert">
        <h1>
          <Glyph kind="refuse" /> {error.message}
        </h1>
        <p>{error.remedy}</p>
      </div>
    </main>
  );
}

export function NoPhoto(): JSX.Element {
  return (
    <>
      <main class="well" />
      <aside class="side verdict">
        <h2>No photo could be taken onto the bench.</h2>
        <p>The reasons stand on the left. Drop another one.</p>
      </aside>
    </>
  );
}

export function EngineStopped({ bench }: { readonly bench: Bench }): JSX.Element {
  const lost = bench.state.value.photos.filter(
    ({ status }) => status.kind === 'failed' && status.error.kind === 'engine-stopped',
  );
  return (
    <div class="stopped-bar" role="alert">
      <div>
        <Glyph kind="refuse" /> <b>The measuring engine stopped, and starts again by itself.</b> Photos, outlines and
        readings are safe
        {lost.length === 0 ? '.' : `; not measured: ${lost.map(({ name }) => name).join(', ')}.`}
      </div>
      {lost.length > 0 && (
        <button onClick={() => bench.measureLost()} data-measure-lost>
          {lost.length === 1 ? 'Measure it again' : `Measure all ${lost.length} again`}
        </button>
      )}
      <button class="plain" onClick={() => bench.dismissStopped()}>
        Put away
      </button>
    </div>
  );
}

/** What the page had kept of its photos and cannot read any more. */
export function LostBar({ bench }: { readonly bench: Bench }): JSX.Element | null {
  const { lost } = bench.state.value;
  if (lost === null) return null;
  return (
    <div class="stopped-bar" role="alert" data-lost>
      <div>
        <Glyph kind="refuse" /> <b>{lost.message}</b> {lost.remedy}
      </div>
      <button onClick={() => bench.dismissLost()}>Put away</button>
    </div>
  );
}

export function Foot({ bench, onHelp }: { readonly bench: Bench; readonly onHelp: () => void }): JSX.Element {
  const { said, photos, version } = bench.state.value;
  const open = photos.filter(({ status }) => status.kind === 'waiting' || status.kind === 'measuring').length;
  return (
    <footer class="foot">
      <span>Nothing leaves this machine</span>
      <span class="said" role="status">
        {open > 0 ? `${photos.length - open} of ${photos.length} photos measured` : said}
      </span>
      <span class="keys">
        <span>
          <kbd>S</kbd> surround
        </span>
        <span>
          <kbd>T</kbd> theme
        </span>
        <button class="plain" onClick={onHelp}>
          <kbd>?</kbd> all keys
        </button>
        <span>Evendial {version}</span>
      </span>
    </footer>
  );
}
