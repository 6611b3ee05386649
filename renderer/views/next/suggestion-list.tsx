import type { JSX } from 'preact';
import type { NextDocument, SuggestedAction, Suggestion } from '../../../core/contract/next-advice';
import type { ErrorEntry } from '../../../core/contract/readings';
import { PlusMinus } from '../figure-view';
import type { Move } from './move-lamp';
import { Refused } from './refused';
import type { Tool } from './tools';

/** Where a suggestion can be tried on the measured light. */
const toolOf: Partial<Record<SuggestedAction, Tool>> = { 'move-back': 'lamp', 'turn-or-move': 'lamp', shade: 'shade' };

/** The move that a suggestion asks for; null: that is for the sliders. */
const moveOf = ({ action, details }: Suggestion): Move | null =>
  action === 'move-back' ? { lamp: 'all', byMm: [0, 0, details.backMm], tiltDeg: [0, 0] } : null;

interface SuggestionListProps {
  /** null: being worked out. */
  readonly advice: NextDocument | null;
  readonly refusal: ErrorEntry | null;
  readonly onTry: (tool: Tool, move: Move | null) => void;
}

/** What to change next, in order, the cheaper and gentler first. */
export function SuggestionList({ advice, refusal, onTry }: SuggestionListProps): JSX.Element {
  if (refusal !== null) return <Refused refusal={refusal} />;
  if (advice === null) {
    return (
      <p class="hint" role="status">
        The suggestions are being worked out.
      </p>
    );
  }
  if (advice.note !== null) {
    return (
      <p class="no-suggestion" data-note>
        No suggestion: {advice.note}.
      </p>
    );
  }
  return (
    <>
      <p class="caution" data-common-caution>
        <b>Before every change:</b> {advice.cautions.join(' ')}
      </p>
      <p class="hint">The gentlest first: by what it costs, not by what it gains.</p>
      <ol class="suggestions">
        {advice.suggestions.map((suggestion) => {
          const { action, words, why, gain, effort, limits, ownCaution } = suggestion;
          const tool = toolOf[action];
          return (
            <li key={action} data-suggestion={action}>
              <div>
                <b>{words.replace(/with 'evendial shade', /, '')}</b>
                <p>
                  Why: {why}. {limits}
                </p>
                <p class="small-caution">{ownCaution}</p>
              </div>
              <div class="gain">
                <span>
                  + <PlusMinus figure={gain} />
                </span>
                <small>points of evenness</small>
                <small>{effort}</small>
                {tool && (
                  <button onClick={() => onTry(tool, moveOf(suggestion))} data-try={tool}>
                    Try it here
                  </button>
                )}
              </div>
            </li>
          );
        })}
      </ol>
    </>
  );
}
