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
    bench.photoPictures.get(photo.id).then(
      (picture) => isWanted && setLoaded({ id: photo.id, picture, error: null }),
      (error: unknown) => {
        if (!(error instanceof CallFailed)) throw error;
        if (isWanted) setLoaded({ id: photo.id, picture: null, error });
      },
    );
    return () => {
      isWanted = false;
    };
  }, [photo.id]);
  return loaded?.id === photo.id ? loaded : { picture: null, error: null };
}
