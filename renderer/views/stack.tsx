import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PhotoOnBench } from '../state/bench-state';
import { useBench } from './bench-context';
import { evennessAxis, FigureBar, PlusMinus } from './figure-view';
import { Glyph } from './glyph';
import { WatchStarter } from './watch/watch-bar';

const stepWords = { decode: 'opening', measure: 'measuring', done: 'measuring' } as const;

function Thumbnail({ picture }: { readonly picture: ImageData }): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (!canvas.current) return;
    canvas.current.width = picture.width;
    canvas.current.height = picture.height;
    canvas.current.getContext('2d')?.putImageData(picture, 0, 0);
  }, [picture]);
  return <canvas ref={canvas} aria-hidden="true" />;
}

function statusWords({ status }: PhotoOnBench): string {
  if (status.kind === 'waiting') return 'waits its turn';
  if (status.kind === 'measuring') return stepWords[status.step];
  return status.kind === 'failed' ? 'no picture' : '';
}

function Card({ photo, isCurrent }: { readonly photo: PhotoOnBench; readonly isCurrent: boolean }): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const picture = bench.thumbnailOf(photo.id);
  const { status, reading } = photo;
  return (
    <li>
      <button
        class="strip-card"
        aria-current={isCurrent ? 'true' : undefined}
        onClick={() => bench.select(photo.id)}
        data-photo={photo.name}
      >
        <span class="picture">
          {picture ? <Thumbnail picture={picture} /> : <span class="pending">{statusWords(photo)}</span>}
        </span>
        <span class="name" title={photo.name}>
          {photo.name}
        </span>
        {status.kind === 'failed' && (
          <span class="name why" title={status.error.message}>
            <Glyph kind="refuse" /> {status.error.kind === 'cancelled' ? 'stopped' : status.error.message}
          </span>
        )}
        {status.kind !== 'failed' && reading && (
          <span class="line">
            <PlusMinus figure={reading.evenness.score} />
            <FigureBar figure={reading.evenness.score} axis={evennessAxis} />
          </span>
        )}
      </button>
    </li>
  );
}

/** The photos on the bench, newest first; the whole page takes a drop, this is only where it says so. */
export function Stack({ onOpen }: { readonly onOpen: () => void }): JSX.Element {
  const bench = useBench();
  const { photos, selected, refusedFiles, shell } = bench.state.value;
  return (
    <aside class="stack" aria-label="Photos on the bench">
      <button class="drop" onClick={onOpen}>
        <span>
          <b>Drop the next photo anywhere</b> or press <kbd>Ctrl O</kbd>
        </span>
      </button>
      {shell === 'desktop' && <WatchStarter />}
      <ol>
        {refusedFiles.map((file) => (
          <li key={file.name} class="refused-file" role="alert">
            <b title={file.name}>{file.name}</b>
            {file.message} {file.remedy}{' '}
            <button class="plain" onClick={() => bench.dismissRefused(file.name)}>
              Put away
            </button>
          </li>
        ))}
        {photos.map((photo) => (
          <Card key={photo.id} photo={photo} isCurrent={photo.id === selected} />
        ))}
      </ol>
    </aside>
  );
}
