import type { JSX } from 'preact';
import type { PhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { patchTools, withoutPatch, type PatchTool } from './draft';

export const patchWords: Readonly<Record<PatchTool, string>> = {
  leaveOut: 'Left out of all figures',
  paintedRed: 'Red print, marked by hand',
  paintedDark: 'Dark print, marked by hand',
};

const toolWords: Readonly<Record<PatchTool, string>> = {
  leaveOut: 'Leave out a patch',
  paintedRed: 'Mark red print',
  paintedDark: 'Mark dark print',
};

interface PatchesProps {
  readonly photo: PhotoOnBench;
  readonly tool: PatchTool | null;
  readonly onTool: (tool: PatchTool | null) => void;
}

/** Patches that are left out or marked as print: a pointer's pivot, a screw, a mark the search cannot see. */
export function Patches({ photo, tool, onTool }: PatchesProps): JSX.Element {
  const bench = useBench();
  const { window } = photo.settings;
  return (
    <section>
      <h3>Patches</h3>
      <div class="row">
        {patchTools.map((kind) => (
          <button key={kind} aria-pressed={tool === kind} onClick={() => onTool(tool === kind ? null : kind)}>
            {toolWords[kind]}
          </button>
        ))}
      </div>
      {tool && (
        <p class="hint" role="status">
          Click its corners on the straightened window; double-click or Enter closes the patch, Esc forgets it.
        </p>
      )}
      <ul>
        {patchTools.flatMap((kind) =>
          window[kind].map((patch, i) => {
            const xs = patch.map(({ xMm }) => xMm);
            const ys = patch.map(({ yMm }) => yMm);
            const width = Math.max(...xs) - Math.min(...xs);
            const height = Math.max(...ys) - Math.min(...ys);
            return (
              <li key={`${kind}${i}`} class="row apart">
                <span class="hint">
                  {patchWords[kind]}: {width.toFixed(1)} × {height.toFixed(1)} mm at {Math.min(...xs).toFixed(1)},{' '}
                  {Math.min(...ys).toFixed(1)}
                </span>
                <button
                  class="plain"
                  onClick={() =>
                    bench.changeSettings(photo.id, 'patch taken away', (settings) => withoutPatch(settings, kind, i))
                  }
                >
                  Remove
                </button>
              </li>
            );
          }),
        )}
      </ul>
    </section>
  );
}
