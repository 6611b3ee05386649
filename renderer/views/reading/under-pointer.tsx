import type { JSX } from 'preact';
import type { Plane } from '../../../core/base/plane';
import { medianOf } from '../../../core/base/stats';
import type { MappedWindow } from '../../../core/contract/measure';
import { unscoredPart } from '../../../core/display/unscored';
import { useReadingView } from './reading-view';
import { useMemo } from 'preact/hooks';

function valueAt(plane: Plane | null, xMm: number, yMm: number): number | null {
  if (plane === null) return null;
  const value = plane.values[Math.floor(4 * yMm) * plane.width + Math.floor(4 * xMm)];
  return value === undefined || Number.isNaN(value) ? null : value;
}

const signed = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(0)} %`;

/** The values of all maps at the pointer; one line that never jumps. */
export function UnderPointer({ entry }: { readonly entry: MappedWindow }): JSX.Element {
  const { pointer } = useReadingView();
  const { maps } = entry;
  const level = useMemo(
    () => medianOf(Array.from(maps.glowLuminance.values).filter((value) => !Number.isNaN(value))),
    [maps],
  );
  const at = pointer.value;
  if (at === null) return <p class="under-pointer">Point at a map for its values; the wheel enlarges all of them.</p>;
  const luminance = valueAt(maps.glowLuminance, at.xMm, at.yMm);
  const unevenness = valueAt(maps.visibleUnevenness, at.xMm, at.yMm);
  const u = valueAt(maps.uPrime, at.xMm, at.yMm);
  const v = valueAt(maps.vPrime, at.xMm, at.yMm);
  return (
    <p class="under-pointer">
      <span>
        {at.xMm.toFixed(1)} mm, {at.yMm.toFixed(1)} mm
      </span>
      {luminance === null ? (
        <span>{unscoredPart(entry.reading)} or border: not scored</span>
      ) : (
        <>
          <span>{(luminance / level).toFixed(2)} × glow</span>
          {unevenness !== null && <span>seen as {signed(100 * (Math.exp(unevenness) - 1))}</span>}
          {u !== null && v !== null && (
            <span>
              u′ {u.toFixed(4)}, v′ {v.toFixed(4)}
            </span>
          )}
        </>
      )}
    </p>
  );
}
