import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PhotoPicture } from '../../state/photo-pictures';
import { cornerNames, type PhotoPlace } from './draft';

const enlargement = 8;
const sideCss = 168;

interface MagnifierProps {
  readonly picture: PhotoPicture;
  readonly corner: number;
  readonly place: PhotoPlace;
}

/** The photo's own pixels round a corner, eight times as large; it lies where the window is not. */
export function Magnifier({ picture, corner, place }: MagnifierProps): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context) return;
    const { bitmap, photoWidthPx } = picture;
    const perPhotoPx = bitmap.width / photoWidthPx;
    const side = (sideCss / enlargement) * perPhotoPx;
    context.imageSmoothingEnabled = false;
    context.fillStyle = '#000';
    context.fillRect(0, 0, sideCss, sideCss);
    const [column, row] = [place[0] * perPhotoPx, place[1] * perPhotoPx];
    context.drawImage(bitmap, column - side / 2, row - side / 2, side, side, 0, 0, sideCss, sideCss);
    for (const [colour, width] of [
      ['#000', 3],
      ['#fff', 1],
    ] as const) {
      context.strokeStyle = colour;
      context.lineWidth = width;
      context.beginPath();
      for (const [x, y, dx, dy] of [
        [0, sideCss / 2, sideCss / 2 - 8, 0],
        [sideCss / 2 + 8, sideCss / 2, sideCss / 2 - 8, 0],
        [sideCss / 2, 0, 0, sideCss / 2 - 8],
        [sideCss / 2, sideCss / 2 + 8, 0, sideCss / 2 - 8],
      ]) {
        context.moveTo(x, y);
        context.lineTo(x + dx, y + dy);
      }
      context.stroke();
    }
  }, [picture, place]);
  return (
    <div class="magnifier">
      <canvas ref={canvas} width={sideCss} height={sideCss} aria-hidden="true" />
      <div>
        <b>Corner {corner + 1}</b>
        <br />
        {cornerNames[corner]}
        <br />x {place[0].toFixed(2)} px
        <br />y {place[1].toFixed(2)} px
        <br />
        <kbd>← ↑ ↓ →</kbd> 0.25 px
        <br />
        <kbd>Shift</kbd> × 10
      </div>
    </div>
  );
}
