import type { JSX } from 'preact';
import { leastRimPoints } from '../../../core/live/rim';
import type { PhotoOnBench } from '../../state/bench-state';
import { withWindow } from '../../state/settings';
import { useBench } from '../bench-context';
import type { Drawing, Tool } from './drawing';

interface ShapeProps {
  readonly photo: PhotoOnBench;
  readonly kind: 'rectangle' | 'ellipse' | 'polygon';
  readonly drawing: Drawing;
}

const toolHints: Partial<Readonly<Record<Tool, string>>> = {
  rim: `Click ${leastRimPoints} or more places on the rim, well spread.`,
  polygon: 'Click the outline’s corners on the straightened window; double-click or Enter closes it.',
  cut: 'Click round the part that glows on the straightened window; double-click or Enter closes it.',
};

/** Rectangle, ellipse (by its rim, with a covered part cut off) or polygon. */
export function ShapeSection({ photo, kind, drawing }: ShapeProps): JSX.Element {
  const bench = useBench();
  const { tool, rim, choose, finish } = drawing;
  const setShape = (next: 'rectangle' | 'ellipse'): void =>
    bench.changeSettings(photo.id, `outline: ${next}`, (now) => withWindow(now, { shape: { kind: next } }));
  const toolButton = (name: Tool, words: string): JSX.Element => (
    <button aria-pressed={tool === name} onClick={() => choose(tool === name ? null : name)}>
      {words}
    </button>
  );
  return (
    <section>
      <h3>Shape</h3>
      <div class="choice" role="group" aria-label="Shape">
        <button aria-pressed={kind === 'rectangle'} onClick={() => setShape('rectangle')}>
          Rectangle
        </button>
        <button aria-pressed={kind === 'ellipse'} onClick={() => setShape('ellipse')}>
          Ellipse
        </button>
        <button
          aria-pressed={kind === 'polygon' || tool === 'polygon'}
          onClick={() => choose(tool === 'polygon' ? null : 'polygon')}
        >
          Polygon
        </button>
      </div>
      {kind === 'ellipse' && (
        <p class="row">
          {toolButton('rim', 'Points on the rim')}
          {toolButton('cut', 'Cut off a covered part')}
          {tool === 'rim' && (
            <button onClick={finish} disabled={rim.length < leastRimPoints}>
              Take {rim.length} points
            </button>
          )}
        </p>
      )}
      {tool !== null && toolHints[tool] && (
        <p class="hint" role="status">
          {toolHints[tool]}
        </p>
      )}
    </section>
  );
}
