import type { JSX } from 'preact';
import type { PhotoOnBench } from '../state/bench-state';
import { settingsOfOtherWindow } from '../state/settings';
import { useBench } from './bench-context';
import { Glyph } from './glyph';

/** Where the size that a photo took over comes from, and how to be rid of it; nothing where it was said of this photo. @rule SC40 */
export function SizeOrigin({ photo }: { readonly photo: PhotoOnBench }): JSX.Element | null {
  const bench = useBench();
  const { sizeFrom, window } = photo.settings;
  if (sizeFrom === null || window.sizeMm === null) return null;
  const { widthMm, heightMm } = window.sizeMm;
  const source = bench.photo(sizeFrom)?.name ?? 'a photo that is no longer on the bench';
  const drop = (): void => bench.changeSettings(photo.id, `${photo.name} shows another window`, settingsOfOtherWindow);
  return (
    <div class="gate" data-size-from>
      <Glyph kind="note" />
      <div>
        <b>
          {widthMm} × {heightMm} mm, taken over from the window of {source}.
        </b>{' '}
        <span class="remedy">Of another window neither this size nor the photos it is read with are its own.</span>{' '}
        <button onClick={drop} data-other-window>
          It is another window
        </button>
      </div>
    </div>
  );
}
