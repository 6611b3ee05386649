import { useEffect, useState } from 'preact/hooks';
import type { WindowPoint } from '../../../core/base/points';
import { cornersOfRim } from '../../../core/live/rim';
import type { ReadingSettings } from '../../state/bench-state';
import { withWindow } from '../../state/settings';
import { isTyping } from '../screen-keys';
import { withPatch, type PatchTool, type PhotoPlace } from './draft';

/** What clicks add points to: patches, the outline or its covered part on the straightened window; the rim on the photo. */
export type Tool = PatchTool | 'polygon' | 'cut' | 'rim';

export interface Drawing {
  readonly tool: Tool | null;
  /** On the straightened window. */
  readonly points: readonly WindowPoint[];
  /** On the photo. */
  readonly rim: readonly PhotoPlace[];
  choose(tool: Tool | null): void;
  addPoint(point: WindowPoint): void;
  addRimPoint(place: PhotoPlace): void;
  /** Takes what was drawn, when it has enough points. */
  finish(): void;
}

const leastPoints = 3;

/** Settings with a finished drawing in them. */
function withDrawing(
  settings: ReadingSettings,
  tool: Exclude<Tool, 'rim'>,
  pointsMm: readonly WindowPoint[],
): ReadingSettings {
  if (tool === 'polygon') return withWindow(settings, { shape: { kind: 'polygon', pointsMm } });
  if (tool === 'cut') return withWindow(settings, { shape: { kind: 'ellipse', cutMm: pointsMm } });
  return withPatch(settings, tool, pointsMm);
}

const editWords: Readonly<Record<Tool, string>> = {
  leaveOut: 'patch left out',
  paintedRed: 'red print marked',
  paintedDark: 'dark print marked',
  polygon: 'outline drawn',
  cut: 'covered part cut off',
  rim: 'rim of a round window',
};

/**
 * Drawing with points, one tool at a time; Enter finishes, Esc forgets.
 *
 * @param onDrawn  called with what the edit is called and how it changes the settings
 */
export function useDrawing(
  onDrawn: (what: string, change: (settings: ReadingSettings) => ReadingSettings) => void,
): Drawing {
  const [tool, setTool] = useState<Tool | null>(null);
  const [points, setPoints] = useState<readonly WindowPoint[]>([]);
  const [rim, setRim] = useState<readonly PhotoPlace[]>([]);
  const choose = (next: Tool | null): void => {
    setTool(next);
    setPoints([]);
    setRim([]);
  };
  const finish = (): void => {
    if (tool === 'rim') {
      const corners = cornersOfRim(rim.map(([column, row]) => ({ column, row })));
      onDrawn(editWords.rim, (settings) =>
        withWindow(settings, {
          cornersPx: corners.map(({ column, row }) => [column, row] as const),
          shape: { kind: 'ellipse' },
        }),
      );
    } else if (tool !== null && points.length >= leastPoints) {
      onDrawn(editWords[tool], (settings) => withDrawing(settings, tool, points));
    }
    choose(null);
  };
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') choose(null);
      else if (event.key === 'Enter' && !isTyping(event.target) && points.length >= leastPoints) finish();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  });
  return {
    tool,
    points,
    rim,
    choose,
    addPoint: (point) => setPoints([...points, point]),
    addRimPoint: (place) => setRim([...rim, place]),
    finish,
  };
}
