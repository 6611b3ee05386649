import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { WindowPoint } from '../../../core/base/points';
import { rulerMarks, type SizeMm } from '../../canvas/viewport';
import type { ReadingSettings } from '../../state/bench-state';
import { patchTools } from './draft';

interface PreviewProps {
  readonly size: SizeMm;
  readonly picture: ImageData | null;
  readonly settings: ReadingSettings;
  /** Clicks add corners to a patch. */
  readonly isDrawing: boolean;
  /** Corners of the patch being drawn. */
  readonly points: readonly WindowPoint[];
  readonly onPoint: (point: WindowPoint) => void;
  readonly onClose: () => void;
}

/** The straightened window with a 10 mm grid; patches are drawn on it, because their places are in millimetres. */
export function Preview(props: PreviewProps): JSX.Element {
  const { size, picture, settings, isDrawing, points, onPoint, onClose } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (!canvas.current || !picture) return;
    canvas.current.width = picture.width;
    canvas.current.height = picture.height;
    canvas.current.getContext('2d')?.putImageData(picture, 0, 0);
  }, [picture]);
  const place = (event: MouseEvent): WindowPoint => {
    const box = (event.currentTarget as Element).getBoundingClientRect();
    const share = (offset: number, length: number): number => Math.min(1, Math.max(0, offset / length));
    return {
      xMm: share(event.clientX - box.left, box.width) * size.widthMm,
      yMm: share(event.clientY - box.top, box.height) * size.heightMm,
    };
  };
  const line = (some: readonly WindowPoint[]): string => some.map(({ xMm, yMm }) => `${xMm},${yMm}`).join(' ');
  const { shape } = settings.window;
  return (
    <div class="preview" style={{ '--aspect': String(size.widthMm / size.heightMm) }}>
      <div
        class={`preview-picture ${isDrawing ? 'taking-points' : ''}`}
        onClick={(event) => isDrawing && onPoint(place(event))}
        onDblClick={() => isDrawing && onClose()}
      >
        <canvas ref={canvas} role="img" aria-label="The window, straightened" />
        <svg viewBox={`0 0 ${size.widthMm} ${size.heightMm}`} preserveAspectRatio="none" aria-hidden="true">
          {rulerMarks(0, size.widthMm, size.widthMm / 10)
            .filter(({ isNamed }) => isNamed)
            .map(({ atMm }) => (
              <line key={atMm} class="grid" x1={atMm} x2={atMm} y1={0} y2={size.heightMm} />
            ))}
          {shape?.kind === 'ellipse' && shape.cutMm && <polygon class="shape" points={line(shape.cutMm)} />}
          {shape?.kind === 'polygon' && <polygon class="shape" points={line(shape.pointsMm)} />}
          {patchTools.flatMap((kind) =>
            settings.window[kind].map((patch, i) => (
              <polygon key={`${kind}${i}`} class={`patch ${kind}`} points={line(patch)} />
            )),
          )}
          {points.length > 0 && <polyline class="drawing" points={line(points)} />}
        </svg>
        {points.map(({ xMm, yMm }, i) => (
          <i
            key={i}
            class="point"
            style={{ left: `${(100 * xMm) / size.widthMm}%`, top: `${(100 * yMm) / size.heightMm}%` }}
          />
        ))}
      </div>
      <div class="ruler" aria-hidden="true">
        {rulerMarks(0, size.widthMm, 10)
          .filter(({ isNamed }) => isNamed)
          .map(({ atMm }) => (
            <span key={atMm} style={{ left: `${(100 * atMm) / size.widthMm}%` }}>
              {atMm}
            </span>
          ))}
      </div>
    </div>
  );
}
