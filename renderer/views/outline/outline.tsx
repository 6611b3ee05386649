import type { JSX } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import type { OutlineShape } from '../../../core/contract/outline';
import { windowPanel } from '../../../core/display/panels';
import { panelPixels } from '../../canvas/panel-pixels';
import type { PhotoOnBench } from '../../state/bench-state';
import type { PhotoPicture } from '../../state/photo-pictures';
import { withWindow } from '../../state/settings';
import { useBench } from '../bench-context';
import { PlusMinus } from '../figure-view';
import { GateList } from '../gate-list';
import { cornerNames, firstCorners, patchTools, roundedPlace, type FourCorners, type PatchTool } from './draft';
import { useDrawing, type Drawing } from './drawing';
import { useLiveLook, type LiveLook } from './live-look';
import { OtherOutlines } from './other-outlines';
import { Patches } from './patches';
import { PhotoCanvas } from './photo-canvas';
import { Preview } from './preview';
import { SceneFields, SizeFields } from './settings-form';
import { ShapeSection } from './shape-section';

interface OutlineProps {
  readonly photo: PhotoOnBench;
  readonly picture: PhotoPicture;
}

function shapeOf({ settings, reading }: PhotoOnBench): OutlineShape {
  if (settings.window.shape) return settings.window.shape;
  return reading?.outline.kind === 'ellipse' ? { kind: 'ellipse' } : { kind: 'rectangle' };
}

/** The photo with its outline above, the straightened window below, what may be set beside them. */
export function Outline({ photo, picture }: OutlineProps): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const { settings, reading } = photo;
  const [dragged, setDragged] = useState<FourCorners | null>(null);
  const corners = dragged ?? firstCorners(photo, picture.photoWidthPx, picture.photoHeightPx);
  const drawing = useDrawing((what, change) => bench.changeSettings(photo.id, what, change));
  const entry = bench.mapsOf(photo.id);
  const shape = shapeOf(photo);
  const size = settings.window.sizeMm ?? {
    widthMm: reading?.outline.widthMm ?? 60,
    heightMm: reading?.outline.heightMm ?? 12,
  };
  const measured = useMemo(() => (entry ? panelPixels(windowPanel(entry)).colours : null), [entry]);
  const live = useLiveLook({ photo, picture, corners, size, shape, entry, isMoving: dragged !== null });
  const rest = (next: FourCorners, corner: number): void => {
    const cornersPx = next.map(roundedPlace);
    bench.changeSettings(photo.id, `corner ${corner + 1} moved`, (now) => withWindow(now, { cornersPx }));
    setDragged(null);
  };
  return (
    <>
      <main class="well outline-well">
        <h1 class="hidden-text">{photo.name}</h1>
        <PhotoCanvas
          picture={picture}
          corners={corners}
          isEllipse={shape.kind === 'ellipse'}
          onMove={setDragged}
          onRest={rest}
          rim={drawing.tool === 'rim' ? drawing.rim : null}
          onRimPoint={drawing.addRimPoint}
        />
        <Preview
          size={size}
          picture={live.frame ?? measured}
          settings={settings}
          isDrawing={drawing.tool !== null && drawing.tool !== 'rim'}
          points={drawing.points}
          onPoint={drawing.addPoint}
          onClose={drawing.finish}
        />
      </main>
      <OutlineSide
        photo={photo}
        shape={shape}
        corners={corners}
        drawing={drawing}
        live={dragged === null ? null : live}
      />
    </>
  );
}

function Score({ photo, live }: { readonly photo: PhotoOnBench; readonly live: LiveLook | null }): JSX.Element {
  const { reading, status } = photo;
  if (live && live.score !== null) return <b>about {live.score.toFixed(0)}</b>;
  if (status.kind === 'measured' && reading) return <PlusMinus figure={reading.evenness.score} />;
  return <span>is being measured</span>;
}

interface SideProps {
  readonly photo: PhotoOnBench;
  readonly shape: OutlineShape;
  readonly corners: FourCorners;
  readonly drawing: Drawing;
  /** While a corner is being moved. */
  readonly live: LiveLook | null;
}

/** Whose the outline is. */
function headingOf({ settings, reading }: PhotoOnBench): string {
  if (settings.window.cornersPx !== null) return 'The outline is yours.';
  if (reading === null) return 'The outline';
  return reading.outline.cornersFrom === 'registration'
    ? 'Taken over from another photo. Check the corners.'
    : 'Found by itself. Check the corners.';
}

function OutlineSide({ photo, shape, corners, drawing, live }: SideProps): JSX.Element {
  const bench = useBench();
  const { settings, reading, status } = photo;
  const isPatchTool = patchTools.some((name) => name === drawing.tool);
  return (
    <aside class="side" aria-label="Outline">
      <h2>{headingOf(photo)}</h2>
      <p class="hint" data-live-score>
        Evenness <Score photo={photo} live={live} />
        {reading && status.kind === 'measured' && ` · seen ${reading.outline.tiltDeg.toFixed(0)}° from the side`}
      </p>
      {status.kind === 'failed' && (
        <p class="hint" role="alert">
          <b>{status.error.message}</b> {status.error.remedy}
        </p>
      )}
      {reading && <GateList gates={reading.gates.filter(({ code }) => /OUTLINE|ASPECT|CUT|TILTED/.test(code))} quiet />}
      <ShapeSection photo={photo} kind={shape.kind} drawing={drawing} />
      <SizeFields photo={photo} />
      <SceneFields photo={photo} />
      <Patches photo={photo} tool={isPatchTool ? (drawing.tool as PatchTool) : null} onTool={drawing.choose} />
      <OtherOutlines photo={photo} />
      <CornerTable corners={corners} />
      <div class="last">
        <button class="go" onClick={() => bench.goTo('reading')}>
          To the reading <kbd>3</kbd>
        </button>
        {settings.window.cornersPx !== null && (
          <button
            onClick={() =>
              bench.changeSettings(photo.id, 'outline searched for again', (now) =>
                withWindow(now, { cornersPx: null, shape: null }),
              )
            }
          >
            Search for it again
          </button>
        )}
      </div>
    </aside>
  );
}

function CornerTable({ corners }: { readonly corners: FourCorners }): JSX.Element {
  return (
    <table>
      <thead>
        <tr>
          <th>Corner</th>
          <th class="number">x px</th>
          <th class="number">y px</th>
        </tr>
      </thead>
      <tbody>
        {corners.map(([column, row], i) => (
          <tr key={cornerNames[i]}>
            <td>
              {i + 1} {cornerNames[i]}
            </td>
            <td class="number">{column.toFixed(2)}</td>
            <td class="number">{row.toFixed(2)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
