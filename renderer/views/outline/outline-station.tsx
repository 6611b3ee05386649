import type { JSX } from 'preact';
import type { PhotoOnBench } from '../../state/bench-state';
import { Outline } from './outline';
import { usePicture } from './use-picture';

/** Station 2: where the window is, what shape it has, what of it does not count. */
export function OutlineStation({ photo }: { readonly photo: PhotoOnBench }): JSX.Element {
  const { picture, error } = usePicture(photo);
  if (error) {
    return (
      <>
        <main class="well">
          <div class="no-map tall">
            <span>{error.message}</span>
          </div>
        </main>
        <aside class="side">
          <h2>{error.message}</h2>
          <p>{error.remedy}</p>
        </aside>
      </>
    );
  }
  if (!picture) {
    return (
      <>
        <main class="well">
          <div class="no-map waiting tall" role="status">
            <span>The photo is being opened.</span>
          </div>
        </main>
        <aside class="side" />
      </>
    );
  }
  return <Outline key={photo.id} photo={photo} picture={picture} />;
}
