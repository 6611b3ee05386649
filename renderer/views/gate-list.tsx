import type { JSX } from 'preact';
import type { Gate } from '../../core/contract/gates';
import { Glyph } from './glyph';

const order = { refuse: 0, warn: 1, note: 2 } as const;

const groupNames = {
  evenness: 'evenness',
  spots: 'spots',
  luminance: 'luminance',
  colour: 'colour',
  redPrint: 'red print',
} as const;

/** The raised checks, the gravest first, each with what to do about it. */
export function GateList(props: {
  readonly gates: readonly Gate[];
  /** Says nothing when all passed. */
  readonly quiet?: boolean;
}): JSX.Element | null {
  const { gates, quiet = false } = props;
  if (gates.length === 0 && quiet) return null;
  if (gates.length === 0) {
    return (
      <p class="gate">
        <Glyph kind="pass" /> <span>All photo checks passed.</span>
      </p>
    );
  }
  const sorted = [...gates].sort((a, b) => order[a.level] - order[b.level]);
  return (
    <ul class="gates">
      {sorted.map((gate) => (
        <li key={gate.code} class="gate" data-gate={gate.code}>
          <Glyph kind={gate.level} />
          <div>
            <b>{gate.message}</b>{' '}
            {gate.level === 'refuse' && (
              <span>No figure for {gate.affects.map((group) => groupNames[group]).join(', ')}. </span>
            )}
            <span class="remedy">{gate.remedy}</span>
          </div>
        </li>
      ))}
    </ul>
  );
}
