import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { ThumbnailAsked } from '../../state/book-pictures';
import { useBook } from '../book-context';

interface PictureProps {
  readonly asked: ThumbnailAsked;
  /** Of the unit's record. */
  readonly revision: number;
  /** What it shows, for who does not see it. */
  readonly label: string;
  /** In its place when there is none. */
  readonly instead: string;
  /** Of the window, so that the place is kept while the picture is on its way. */
  readonly aspect: number;
  readonly isRound?: boolean;
}

/** The straightened window of a photo in the book. */
export function WindowPicture(props: PictureProps): JSX.Element {
  const { asked, revision, label, instead, aspect, isRound = false } = props;
  const { pictures } = useBook().book;
  void pictures.arrived.value;
  const picture = pictures.of(asked, revision);
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (!canvas.current || !picture) return;
    canvas.current.width = picture.width;
    canvas.current.height = picture.height;
    canvas.current.getContext('2d')?.putImageData(picture, 0, 0);
  }, [picture]);
  const style = { aspectRatio: String(aspect) };
  // Behind a drawing that says all of it, a picture has no words of its own.
  const said = label === '' ? { 'aria-hidden': true } : { role: 'img' as const, 'aria-label': label };
  if (picture) return <canvas ref={canvas} class={isRound ? 'round' : ''} style={style} {...said} />;
  return (
    <span class={`no-picture ${picture === undefined ? 'waiting' : 'none'}`} style={style}>
      {picture === undefined ? '' : instead}
    </span>
  );
}
