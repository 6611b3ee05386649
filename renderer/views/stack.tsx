import { Fragment, type JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PhotoOnBench } from '../state/bench-state';
import { askedWord } from '../state/filings';
import { photoGroups } from '../state/photo-groups';
import { useBench } from './bench-context';
import { useBook } from './book-context';
import { CutName } from './compare/cut-name';
import { evennessAxis, FigureBar, PlusMinus } from './figure-view';
import { Glyph } from './glyph';
import { WatchStarter } from './watch/watch-bar';
import { roleWords } from './words';

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
  return '';
}

/** What a photo that others are read with is to them; it needs no window of its own. */
function roleOnBench(photo: PhotoOnBench, photos: readonly PhotoOnBench[]): string | null {
  const serves = (helper: 'lampOff' | 'flatField' | 'printPhoto'): boolean =>
    photos.some(({ id, settings }) => id !== photo.id && settings.helpers[helper] === photo.id);
  if (serves('lampOff')) return roleWords['lamp-off'];
  if (serves('flatField')) return roleWords['flat-field'];
  return serves('printPhoto') ? roleWords['print-photo'] : null;
}

/** Where it lies in the book, and whether it has been read differently since. */
function FiledIn({ photo }: { readonly photo: PhotoOnBench }): JSX.Element | null {
  const bench = useBench();
  const filing = useBook().filings.of(photo.id);
  if (!filing) return null;
  const isChanged = filing.asked !== askedWord(bench.askOf(photo));
  const what = filing.trial ?? roleWords[filing.role];
  return (
    <span class="name filed" title={`${filing.unitName}, ${filing.window}: ${what}`}>
      {isChanged ? 'changed since it was filed: ' : 'in the book: '}
      {what}
    </span>
  );
}

function Card({ photo, isCurrent }: { readonly photo: PhotoOnBench; readonly isCurrent: boolean }): JSX.Element {
  const bench = useBench();
  void bench.pictures.value;
  const picture = bench.thumbnailOf(photo.id);
  const { status, reading } = photo;
  const servesAs = roleOnBench(photo, bench.state.value.photos);
  return (
    <li>
      <button
        class="strip-card"
        aria-current={isCurrent ? 'true' : undefined}
        onClick={() => bench.select(photo.id)}
        data-photo={photo.name}
      >
        <span class="picture">
          {picture ? (
            <Thumbnail picture={picture} />
          ) : (
            <span class="pending">{status.kind === 'failed' ? (servesAs ?? 'no picture') : statusWords(photo)}</span>
          )}
        </span>
        <span class="name" title={photo.name}>
          <CutName name={photo.name} />
        </span>
        <FiledIn photo={photo} />
        {status.kind === 'failed' && servesAs === null && (
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
export function Stack(props: { readonly onOpen: () => void; readonly onFile: () => void }): JSX.Element {
  const { onOpen, onFile } = props;
  const bench = useBench();
  const { photos, selected, refusedFiles, shell } = bench.state.value;
  const headOf = new Map(photoGroups(photos).map(({ first, words }) => [first, words]));
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
          <Fragment key={photo.id}>
            {headOf.has(photo.id) && <li class="group-head">{headOf.get(photo.id) || 'time not told'}</li>}
            <Card photo={photo} isCurrent={photo.id === selected} />
          </Fragment>
        ))}
      </ol>
      {photos.length > 0 && (
        <button class="file-away" data-file-away onClick={onFile}>
          File into a unit <kbd>F</kbd>
        </button>
      )}
    </aside>
  );
}
