import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { WindowPoint } from '../../../core/base/points';
import type { Panel } from '../../../core/display/panels';
import { contourPaths } from '../../canvas/contour-lines';
import { drawPanel, panelPicture } from '../../canvas/draw-panel';
import { drawSoon } from '../../canvas/draw-queue';
import { useReadingView } from './reading-view';

interface StripProps {
  readonly panel: Panel;
  /** Said to who cannot see the picture. */
  readonly label: string;
  readonly children?: ComponentChildren;
}

/** A value that is made when it is first asked for. */
function lazily<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | null = null;
  return () => (made ??= { value: make() }).value;
}

const percent = (share: number): string => `${(100 * share).toFixed(3)}%`;

/** One map of the window on the shared mm axis: wheel enlarges, dragging moves, the pointer's place is shown in all. */
export function Strip({ panel, label, children }: StripProps): JSX.Element {
  const view = useReadingView();
  const canvas = useRef<HTMLCanvasElement>(null);
  const picture = useMemo(() => lazily(() => panelPicture(panel)), [panel]);
  const viewport = view.viewport.value;
  const pointer = view.pointer.value;

  useEffect(() => {
    const element = canvas.current;
    if (!element) return undefined;
    const draw = (): void => drawPanel(element, picture(), viewport);
    let takeBack = (): void => undefined;
    // The observer reports once at the beginning.
    const observer = new ResizeObserver(() => {
      takeBack();
      takeBack = drawSoon(draw);
    });
    observer.observe(element);
    return () => {
      takeBack();
      observer.disconnect();
    };
  }, [picture, viewport]);

  const placeOf = (event: MouseEvent): WindowPoint => {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    return {
      xMm: viewport.leftMm + ((event.clientX - box.left) / box.width) * viewport.widthMm,
      yMm: viewport.topMm + ((event.clientY - box.top) / box.height) * viewport.heightMm,
    };
  };
  const move = (event: PointerEvent): void => {
    if (event.buttons === 1 && view.isZoomed) {
      const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
      view.pan((-event.movementX / box.width) * viewport.widthMm, (-event.movementY / box.height) * viewport.heightMm);
    }
    view.pointer.value = placeOf(event);
  };

  return (
    <div
      class={`strip ${view.isZoomed ? 'pannable' : ''}`}
      style={{ aspectRatio: `${viewport.widthMm} / ${viewport.heightMm}` }}
      role="img"
      aria-label={label}
      onPointerMove={move}
      onPointerLeave={() => (view.pointer.value = null)}
      onClick={(event) => (view.profileAtMm.value = placeOf(event).yMm)}
      onWheel={(event) => {
        event.preventDefault();
        view.zoom(event.deltaY < 0 ? 1.25 : 0.8, placeOf(event));
      }}
      onDblClick={() => view.showAll()}
    >
      <canvas ref={canvas} />
      <Contours panel={panel} />
      {children}
      {pointer && (
        <>
          <span class="cross" style={{ left: percent((pointer.xMm - viewport.leftMm) / viewport.widthMm) }} />
          <span class="cross level" style={{ top: percent((pointer.yMm - viewport.topMm) / viewport.heightMm) }} />
        </>
      )}
    </div>
  );
}

function Contours({ panel }: { readonly panel: Panel }): JSX.Element | null {
  const { viewport } = useReadingView();
  const { contours, cellsPerMm } = panel;
  const lines = useMemo(() => {
    if (!contours) return [];
    const paths = contourPaths(
      contours.field,
      contours.levels.map(({ value }) => value),
    );
    return contours.levels.map(({ bold, label }, i) => ({ bold, label, path: paths[i] })).filter(({ path }) => path);
  }, [contours]);
  if (!contours) return null;
  const { leftMm, topMm, widthMm, heightMm } = viewport.value;
  const box = [leftMm, topMm, widthMm, heightMm].map((mm) => mm * cellsPerMm).join(' ');
  return (
    <svg viewBox={box} preserveAspectRatio="none" aria-hidden="true">
      {lines.map(({ bold, label, path }) => (
        <path key={label} class={bold ? 'contour middle' : 'contour'} d={path} />
      ))}
    </svg>
  );
}

/** Numbered spots: hot ones round, dark ones square. */
export function SpotMarks({ panel }: { readonly panel: Panel }): JSX.Element {
  const { viewport } = useReadingView();
  const { leftMm, topMm, widthMm, heightMm } = viewport.value;
  const seen = (panel.marks ?? []).filter(
    ({ xMm, yMm }) => xMm >= leftMm && xMm <= leftMm + widthMm && yMm >= topMm && yMm <= topMm + heightMm,
  );
  return (
    <>
      {seen.map(({ xMm, yMm, label, kind }) => (
        <span
          key={label}
          class={`spot-mark ${kind}`}
          style={{ left: percent((xMm - leftMm) / widthMm), top: percent((yMm - topMm) / heightMm) }}
        >
          {label}
        </span>
      ))}
    </>
  );
}
