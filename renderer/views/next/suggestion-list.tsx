import type { JSX } from 'preact';
import type { NextDocument, SuggestedAction } from '../../../core/contract/next-advice';
import { PlusMinus } from '../figure-view';
import type { Tool } from './tools';

/** Where a suggestion can be tried on the measured light. */
const toolOf: Partial<Record<SuggestedAction, Tool>> = { 'turn-or-move': 'lamp', shade: 'shade' };

interface SuggestionListProps {
  /** null: being worked out. */
  readonly advice: NextDocument | null;
  readonly onTry: (tool: Tool) => void;
}

/** What to change next, in order, the cheaper and gentler first. */
export function SuggestionList({ advice, onTry }: SuggestionListProps): JSX.Element {
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
    <ol class="suggestions">
      {advice.suggestions.map(({ action, words, why, gain, effort, limits, caution }) => {
        const tool = toolOf[action];
        return (
          <li key={action} data-suggestion={action}>
            <div>
              <b>{words.replace(/with 'evendial shade', /, '')}</b>
              <p>
                Why: {why}. {limits}
              </p>
              <p class="small-caution">{caution}</p>
            </div>
            <div class="gain">
              <span>
                + <PlusMinus figure={gain} />
              </span>
              <small>points of evenness</small>
              <small>{effort}</small>
              {tool && (
                <button onClick={() => onTry(tool)} data-try={tool}>
                  Try it here
                </button>
              )}
            </div>
          </li>
        );
      })}
    </ol>
  );
}
