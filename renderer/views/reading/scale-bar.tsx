import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PanelScale } from '../../../core/display/panels';
import { labelsWithRoom } from './labels-with-room';

const steps = 128;

/** The colours of a map with their printed limits, upright. */
export function ScaleBar({ scale }: { readonly scale: PanelScale }): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context) return;
    for (let row = 0; row < steps; row++) {
      context.fillStyle = `rgb(${scale.colourAt(1 - (row + 0.5) / steps).join(' ')})`;
      context.fillRect(0, row, 1, 1);
    }
  }, [scale]);
  return (
    <div class="scale">
      <canvas ref={canvas} width={1} height={steps} aria-hidden="true" />
      <div class="ticks">
        {labelsWithRoom(scale.ticks).map(({ share, label }) => (
          <span key={label} style={{ bottom: `${(100 * share).toFixed(1)}%` }}>
            {label}
          </span>
        ))}
      </div>
    </div>
  );
}
