import type { JSX } from 'preact';
import { useBench } from './bench-context';
import { WatchStarter } from './watch/watch-bar';
import { Caution, ShootingGuide } from './shooting-guide';

/** A tuning scale in outline: what kind of photo belongs here. */
function DrawnScale(): JSX.Element {
  const numerals = ['88', '92', '96', '100', '104', '108'];
  return (
    <svg class="frame" viewBox="0 0 92 18" aria-hidden="true">
      <rect x="0.3" y="0.3" width="91.4" height="17.4" />
      {numerals.map((numeral, i) => (
        <g key={numeral}>
          <text x={9 + 14.8 * i} y="7.4">
            {numeral}
          </text>
          {[0, 3.7, 7.4, 11.1].map((offset) => (
            <path key={offset} d={`M${9 + 14.8 * i + offset} ${offset === 0 ? 10 : 11.4}V13`} />
          ))}
        </g>
      ))}
      <path class="pointer" d="M45.8 2v14" />
    </svg>
  );
}

/** The tuning scale's trials come first among the samples. */
const eveningLength = 8;

/** Before the first photo: what to drop, three ways to begin. */
export function EmptyBench({ onOpen }: { readonly onOpen: () => void }): JSX.Element {
  const bench = useBench();
  const { samples } = bench.state.value;
  const evening = samples.slice(0, eveningLength);
  return (
    <div class="bench without-stack">
      <main class="well empty">
        <div class="target">
          <DrawnScale />
          <h1>Drop a photo of the lit window</h1>
          <p>
            It is found, straightened and measured by itself. Begin with the filament lamp, before it comes out: every
            LED is judged against it.
          </p>
          <div class="row">
            <button class="go" onClick={onOpen}>
              Open photos <kbd>Ctrl O</kbd>
            </button>
            {samples.length > 0 && (
              <button onClick={() => void bench.addSamples(evening.map(({ name }) => name))}>
                Try an evening of {evening.length} samples
              </button>
            )}
            {bench.state.value.shell === 'desktop' && <WatchStarter />}
          </div>
          {bench.state.value.shell === 'browser' && <WatchStarter />}
          {samples.length > 0 && (
            <ul class="samples" aria-label="Sample photos">
              {samples.map(({ name, title }) => (
                <li key={name}>
                  <button class="plain" onClick={() => void bench.addSamples([name])}>
                    {title} <small>{name}</small>
                  </button>
                </li>
              ))}
            </ul>
          )}
        </div>
      </main>
      <aside class="side">
        <ShootingGuide />
        <Caution />
      </aside>
    </div>
  );
}
