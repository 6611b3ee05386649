import { useEffect, useState } from 'preact/hooks';
import { CallFailed } from '../../link/bench-link';
import type { PhotoOnBench } from '../../state/bench-state';
import type { PhotoPicture } from '../../state/photo-pictures';
import { useBench } from '../bench-context';

/** Loads the photo's picture; null while it comes. */
export function usePicture(photo: PhotoOnBench): {
  readonly picture: PhotoPicture | null;
  readonly error: CallFailed | null;
} {
  const bench = useBench();
  const [loaded, setLoaded] = useState<{ id: string; picture: PhotoPicture | null; error: CallFailed | null } | null>(
    null,
  );
  useEffect(() => {
    let isWanted = true;
    const show = (picture: PhotoPicture): void => {
      if (isWanted) setLoaded({ id: photo.id, picture, error: null });
    };
    bench.photoPictures.show(photo.id, show).catch((error: unknown) => {
      if (!(error instanceof CallFailed)) throw error;
      // A small picture that is there already is better than none.
      if (isWanted)
        setLoaded((now) => (now?.id === photo.id && now.picture ? now : { id: photo.id, picture: null, error }));
    });
    return () => {
      isWanted = false;
    };
  }, [photo.id]);
  return loaded?.id === photo.id ? loaded : { picture: null, error: null };
}
