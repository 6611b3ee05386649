import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { cssOf, enlarged, partOfPhoto, photoPlaceOf, wholePhoto, type PhotoView } from '../../canvas/photo-view';
import type { PhotoPicture } from '../../state/photo-pictures';
import { cornerNames, keptInPhoto, withCorner, type FourCorners, type PhotoPlace } from './draft';
import { Magnifier } from './magnifier';

interface PhotoCanvasProps {
  readonly picture: PhotoPicture;
  readonly corners: FourCorners;
  readonly isEllipse: boolean;
  /** Called at every step of a drag. */
  readonly onMove: (corners: FourCorners, corner: number) => void;
  /** Called when a corner has come to rest. */
  readonly onRest: (corners: FourCorners, corner: number) => void;
  /** Points on a round window's rim that were set so far; null when they are not being set. */
  readonly rim: readonly PhotoPlace[] | null;
  readonly onRimPoint: (place: PhotoPlace) => void;
}

const stepPx = 0.25;
const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The whole photo with the window's outline on it; corners are dragged or moved by keys. */
export function PhotoCanvas(props: PhotoCanvasProps): JSX.Element {
  const { picture, corners, isEllipse, onMove, onRest, rim, onRimPoint } = props;
  const { photoWidthPx, photoHeightPx, bitmap } = picture;
  const place = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [view, setView] = useState<PhotoView | null>(null);
  const [active, setActive] = useState<number | null>(null);
  const drag = useRef<'photo' | number | null>(null);
  const latest = useRef(corners);
  latest.current = corners;

  useEffect(() => {
    const element = place.current;
    if (!element) return undefined;
    const fit = (): void => {
      const box = { width: element.clientWidth, height: element.clientHeight };
      setView(wholePhoto({ width: photoWidthPx, height: photoHeightPx }, box));
    };
    fit();
    const observer = new ResizeObserver(fit);
    observer.observe(element);
    return () => observer.disconnect();
    // The picture with all its pixels keeps the view of the small one.
  }, [photoWidthPx, photoHeightPx]);

  useEffect(() => {
    const element = canvas.current;
    if (!element || !view) return;
    const scale = window.devicePixelRatio || 1;
    element.width = Math.round(element.clientWidth * scale);
    element.height = Math.round(element.clientHeight * scale);
    const context = element.getContext('2d');
    if (!context) return;
    context.imageSmoothingEnabled = view.scale < 4;
    context.imageSmoothingQuality = 'high';
    const [left, top] = [view.leftCss * scale, view.topCss * scale];
    context.drawImage(bitmap, left, top, photoWidthPx * view.scale * scale, photoHeightPx * view.scale * scale);
  }, [view, bitmap]);

  const placeOf = (event: MouseEvent): PhotoPlace => {
    const box = place.current!.getBoundingClientRect();
    return photoPlaceOf(view!, event.clientX - box.left, event.clientY - box.top);
  };
  const moved = (corner: number, to: PhotoPlace): FourCorners => {
    const next = withCorner(latest.current, corner, keptInPhoto(to, photoWidthPx, photoHeightPx));
    latest.current = next;
    onMove(next, corner);
    return next;
  };
  const pointerDown = (event: PointerEvent): void => {
    if (rim !== null) {
      onRimPoint(placeOf(event));
      return;
    }
    drag.current = 'photo';
    place.current?.setPointerCapture(event.pointerId);
  };
  const pointerMove = (event: PointerEvent): void => {
    if (drag.current === 'photo' && view) {
      setView({ ...view, leftCss: view.leftCss + event.movementX, topCss: view.topCss + event.movementY });
    } else if (typeof drag.current === 'number') moved(drag.current, placeOf(event));
  };
  const pointerUp = (): void => {
    if (typeof drag.current === 'number') onRest(latest.current, drag.current);
    drag.current = null;
  };
  const keyDown = (event: KeyboardEvent, corner: number): void => {
    const direction = arrows[event.key];
    if (!direction) return;
    event.preventDefault();
    event.stopPropagation();
    const step = stepPx * (event.shiftKey ? 10 : 1);
    const [column, row] = latest.current[corner];
    moved(corner, [column + direction[0] * step, row + direction[1] * step]);
  };

  const points = view ? corners.map((corner) => cssOf(view, corner)) : [];
  const line = points.map((point) => point.join(',')).join(' ');
  return (
    <div
      ref={place}
      class={`photo-place ${rim === null ? '' : 'taking-points'}`}
      onPointerDown={pointerDown}
      onPointerMove={pointerMove}
      onPointerUp={pointerUp}
      onPointerCancel={pointerUp}
      onWheel={(event) => {
        event.preventDefault();
        const box = place.current!.getBoundingClientRect();
        const factor = event.deltaY < 0 ? 1.25 : 0.8;
        if (view) setView(enlarged(view, event.clientX - box.left, event.clientY - box.top, factor));
      }}
    >
      <canvas ref={canvas} role="img" aria-label="The photo with the outline of its window" />
      {view && (
        <svg class="outline" aria-label="Corners of the window">
          <polygon class="under" points={line} />
          <polygon class="over" points={line} />
          {isEllipse && <path class="over round" d={ellipsePath(points)} />}
          {(rim ?? []).map((point) => {
            const [x, y] = cssOf(view, point);
            return <circle key={point.join()} class="rim-point" cx={x} cy={y} r={4} />;
          })}
          {rim === null &&
            points.map(([x, y], corner) => (
              <g
                key={cornerNames[corner]}
                class="corner"
                role="button"
                tabIndex={0}
                aria-label={`Corner ${corner + 1}, ${cornerNames[corner]}: x ${corners[corner][0].toFixed(2)}, y ${corners[corner][1].toFixed(2)} px. Arrow keys move it by a quarter of a pixel.`}
                onPointerDown={(event) => {
                  event.stopPropagation();
                  event.currentTarget.focus();
                  drag.current = corner;
                  place.current?.setPointerCapture(event.pointerId);
                }}
                onKeyDown={(event) => keyDown(event, corner)}
                onKeyUp={(event) => arrows[event.key] && onRest(latest.current, corner)}
                onFocus={() => setActive(corner)}
                onBlur={() => setActive((now) => (now === corner ? null : now))}
              >
                <circle class="target" cx={x} cy={y} r={14} />
                <circle class="ring" cx={x} cy={y} r={9} />
                <text x={x + (corner === 0 || corner === 3 ? -22 : 16)} y={y + (corner < 2 ? -12 : 20)}>
                  {corner + 1}
                </text>
              </g>
            ))}
        </svg>
      )}
      {active !== null && view && (
        <div class={`magnifier-place ${quarterWithout(points, place.current!)}`}>
          <Magnifier picture={picture} corner={active} place={corners[active]} />
        </div>
      )}
      <div class="photo-tools">
        <button
          onPointerDown={(event) => event.stopPropagation()}
          onClick={() =>
            place.current && setView(wholePhoto({ width: photoWidthPx, height: photoHeightPx }, boxOf(place.current)))
          }
        >
          Whole photo
        </button>
        <button
          onPointerDown={(event) => event.stopPropagation()}
          onClick={() => place.current && setView(partOfPhoto(corners, boxOf(place.current)))}
        >
          Window
        </button>
      </div>
    </div>
  );
}

function boxOf(element: HTMLElement): { width: number; height: number } {
  return { width: element.clientWidth, height: element.clientHeight };
}

/** Of the magnifier with its words, CSS pixels. */
const magnifierBox = { width: 300, height: 190 };

/** The corner of the place where the magnifier hides least of the window. */
function quarterWithout(points: readonly (readonly [number, number])[], place: HTMLElement): string {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const { width, height } = magnifierBox;
  const hidden = (left: number, top: number): number =>
    Math.max(0, Math.min(left + width, Math.max(...xs)) - Math.max(left, Math.min(...xs))) *
    Math.max(0, Math.min(top + height, Math.max(...ys)) - Math.max(top, Math.min(...ys)));
  const [right, bottom] = [place.clientWidth - width, place.clientHeight - height];
  const quarters = [
    { name: 'bottom right', area: hidden(right, bottom) },
    { name: 'bottom left', area: hidden(0, bottom) },
    { name: 'top left', area: hidden(0, 0) },
    { name: 'top right', area: hidden(right, 0) },
  ];
  return quarters.reduce((best, quarter) => (quarter.area < best.area ? quarter : best)).name;
}

/** The ellipse inside four corners: each quarter as a curve from mid-side to mid-side. */
function ellipsePath(points: readonly (readonly [number, number])[]): string {
  if (points.length < 4) return '';
  const middle = (a: readonly [number, number], b: readonly [number, number]): readonly [number, number] => [
    (a[0] + b[0]) / 2,
    (a[1] + b[1]) / 2,
  ];
  const sides = points.map((point, i) => middle(point, points[(i + 1) % 4]));
  const towards = (from: readonly [number, number], to: readonly [number, number]): string =>
    // 0.5523 makes a cubic curve follow a quarter of a circle.
    `${from[0] + (to[0] - from[0]) * 0.5523},${from[1] + (to[1] - from[1]) * 0.5523}`;
  const curve = [0, 1, 2, 3].map((i) => {
    const corner = points[(i + 1) % 4];
    const next = sides[(i + 1) % 4];
    return `C${towards(sides[i], corner)} ${towards(next, corner)} ${next.join(',')}`;
  });
  return `M${sides[0].join(',')}${curve.join('')}`;
}
