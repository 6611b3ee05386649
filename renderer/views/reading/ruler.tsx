import type { JSX } from 'preact';
import { rulerMarks } from '../../canvas/viewport';
import { useReadingView } from './reading-view';

/** Millimetres along the window; relative ones when the size was assumed. */
export function Ruler(): JSX.Element {
  const { leftMm, widthMm } = useReadingView().viewport.value;
  return (
    <div class="ruler" aria-hidden="true">
      {rulerMarks(leftMm, widthMm, 10).map(({ atMm, isNamed }) => {
        const left = `${((100 * (atMm - leftMm)) / widthMm).toFixed(3)}%`;
        return isNamed ? (
          <>
            <i style={{ left }} />
            <span style={{ left }}>{atMm}</span>
          </>
        ) : (
          <i class="minor" style={{ left }} />
        );
      })}
    </div>
  );
}
