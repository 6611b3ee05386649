import { exposureText } from '../../../core/display/exposure-text';
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Reading } from '../../../core/contract/readings';
import { CallFailed } from '../../link/bench-link';
import type { PhotoOnBench } from '../../state/bench-state';
import { useBench } from '../bench-context';
import { GateList } from '../gate-list';
import { Glyph } from '../glyph';
import { SceneFields } from '../outline/settings-form';
import { ShootingGuide } from '../shooting-guide';
import { Belonging } from './belonging';
import { gateOfCheck, photoChecks } from './checks';

const shownSidePx = 1400;

/** The photo as it was taken, with the outline that was measured. */
function WholePhoto({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const bench = useBench();
  const canvas = useRef<HTMLCanvasElement>(null);
  const [problem, setProblem] = useState<CallFailed | null>(null);
  const corners = photo.reading?.outline.cornersPx ?? null;
  useEffect(() => {
    let isWanted = true;
    const draw = async (): Promise<void> => {
      const asks = { photo: photo.id, mostSidePx: shownSidePx, region: null };
      const { width, height, rgba, photoWidthPx } = await bench.link.call('pixels', asks);
      const context = canvas.current?.getContext('2d');
      if (!isWanted || !context || !canvas.current) return;
      canvas.current.width = width;
      canvas.current.height = height;
      context.putImageData(new ImageData(new Uint8ClampedArray(rgba), width, height), 0, 0);
      if (!corners) return;
      const scale = width / photoWidthPx;
      for (const [colour, dash] of [
        ['#000', []],
        ['#fff', [8, 6]],
      ] as const) {
        context.strokeStyle = colour;
        context.lineWidth = 2;
        context.setLineDash([...dash]);
        context.beginPath();
        for (const [column, row] of corners) context.lineTo(column * scale, row * scale);
        context.closePath();
        context.stroke();
      }
    };
    draw().catch((error: unknown) => {
      if (!(error instanceof CallFailed)) throw error;
      if (isWanted) setProblem(error);
    });
    return () => {
      isWanted = false;
    };
  }, [photo.id, corners]);
  if (problem) {
    return (
      <div class="no-map tall">
        <span>{problem.message}</span>
      </div>
    );
  }
  return <canvas ref={canvas} class="whole-photo" role="img" aria-label={`The photo ${photo.name}`} />;
}

function Checks({ reading }: { readonly reading: Reading }): JSX.Element {
  const passed = photoChecks.filter((check) => gateOfCheck(check, reading.gates) === null);
  return (
    <section class="checks-card" aria-label="Photo checks">
      {reading.gates.length > 0 && <GateList gates={reading.gates} />}
      <ul class="checks">
        {passed.map(({ name }) => (
          <li key={name} class="check">
            <Glyph kind="pass" /> <span>{name}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function factsOf({ photos }: Reading): string {
  const [{ camera, widthPx, heightPx, format, bitDepth }] = photos;
  const { exposureS, fNumber, iso } = camera;
  const exposure = [
    exposureS === undefined ? null : exposureText(exposureS),
    fNumber === undefined ? null : `f/${fNumber}`,
    iso === undefined ? null : `ISO ${iso}`,
  ].filter((part) => part !== null);
  return `${widthPx} × ${heightPx} px, ${format.toUpperCase()} ${bitDepth} bit${exposure.length ? `, ${exposure.join(' ')}` : ', exposure not stated'}`;
}

/** Station 1: the photo itself, every check on it, and how to take a better one. */
export function PhotosStation({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const { reading, status } = photo;
  return (
    <>
      <main class="well">
        <h1>{photo.name}</h1>
        <p>{reading ? factsOf(reading) : ''}</p>
        <WholePhoto photo={photo} />
        {reading && status.kind !== 'failed' ? (
          <Checks reading={reading} />
        ) : (
          <p role="status">
            {status.kind === 'failed' ? `${status.error.message} ${status.error.remedy}` : 'The checks are under way.'}
          </p>
        )}
      </main>
      <aside class="side" aria-label="The photo">
        <h2>What the photo cannot tell</h2>
        <SceneFields photo={photo} />
        <Belonging photo={photo} />
        <ShootingGuide />
      </aside>
    </>
  );
}
