import { Chart, LinearScale, LineController, LineElement, LogarithmicScale, PointElement } from 'chart.js';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { drawSoon } from '../../canvas/draw-queue';
import { medianOf } from '../../../core/base/stats';
import type { MappedWindow } from '../../../core/contract/measure';
import { usePageLook } from '../use-page-look';
import { useReadingView } from './reading-view';
import { profileAlong } from '../../../core/display/profile';

Chart.register(LineController, LineElement, PointElement, LinearScale, LogarithmicScale);

/** The same limits for every trial, wider only when the curve leaves them. */
const usualLimits = { least: 0.5, most: 2 } as const;
const ticks = [0.1, 0.2, 0.33, 0.5, 0.7, 1, 1.4, 2, 3, 5, 10] as const;

function limitsFor(ratios: readonly number[]): { least: number; most: number } {
  const least = ticks.filter((tick) => ratios.every((ratio) => ratio >= tick)).at(-1) ?? ticks[0];
  const most = ticks.find((tick) => ratios.every((ratio) => ratio <= tick)) ?? ticks[ticks.length - 1];
  return { least: Math.min(usualLimits.least, least), most: Math.max(usualLimits.most, most) };
}

/** The marks are set in HTML beside the chart; number formats of its own would take longer than the chart. */
const unnamed = (): string => '';

/** Luminance along the window under the maps, on their mm axis; logarithmic, so that half and double are as far from 1. */
export function ProfileChart({ entry }: { readonly entry: MappedWindow }): JSX.Element {
  const view = useReadingView();
  const canvas = useRef<HTMLCanvasElement>(null);
  const viewport = view.viewport.value;
  const atMm = view.profileAtMm.value;
  const look = usePageLook();
  const { glowLuminance } = entry.maps;

  const level = medianOf(Array.from(glowLuminance.values).filter((value) => !Number.isNaN(value)));
  const points = profileAlong(glowLuminance, level, atMm, 'across');
  const { least, most } = limitsFor(points.flatMap(({ ratio }) => (ratio === null ? [] : [ratio])));
  const seenTicks = ticks.filter((tick) => tick >= least && tick <= most);

  useEffect(() => {
    const element = canvas.current;
    if (!element) return undefined;
    let chart: Chart | null = null;
    const takeBack = drawSoon(() => {
      chart = drawChart(element);
    });
    return () => {
      takeBack();
      chart?.destroy();
    };
  }, [entry, viewport, atMm, look]);

  const drawChart = (element: HTMLCanvasElement): Chart => {
    const colours = getComputedStyle(element);
    return new Chart(element, {
      type: 'line',
      data: {
        datasets: [
          {
            data: points.map(({ alongMm, ratio }) => ({ x: alongMm, y: ratio })),
            borderColor: colours.getPropertyValue('--on-surround-line').trim(),
            borderWidth: 2.25,
            pointRadius: 0,
            spanGaps: true,
          },
        ],
      },
      options: {
        animation: false,
        responsive: true,
        maintainAspectRatio: false,
        layout: { padding: 0 },
        events: [],
        scales: {
          x: {
            type: 'linear',
            display: false,
            min: viewport.leftMm,
            max: viewport.leftMm + viewport.widthMm,
            ticks: { callback: unnamed },
          },
          y: { type: 'logarithmic', display: false, min: least, max: most, ticks: { callback: unnamed } },
        },
      },
    });
  };

  const levelOf = (tick: number): string => `${(100 * Math.log(tick / least)) / Math.log(most / least)}%`;
  return (
    <>
      <div class="profile" role="img" aria-label={`Luminance along the window at ${atMm.toFixed(0)} mm from its top`}>
        {seenTicks.map((tick) => (
          <span key={tick} class={`level ${tick === 1 ? 'middle' : ''}`} style={{ bottom: levelOf(tick) }} />
        ))}
        <canvas ref={canvas} />
      </div>
      <div class="profile-ticks" aria-hidden="true">
        {seenTicks.map((tick) => (
          <span key={tick} style={{ bottom: levelOf(tick) }}>
            {tick}
          </span>
        ))}
      </div>
    </>
  );
}
