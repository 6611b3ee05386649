import type { MeasureAsked, PhotoId, WindowAsked } from '../../core/contract/bench';

const window: WindowAsked = {
  cornersPx: [
    [332, 217],
    [1268, 222],
    [1267, 406],
    [330, 399],
  ],
  sizeMm: { widthMm: 46, heightMm: 9 },
  shape: { kind: 'rectangle' },
  print: 'dark',
  leaveOut: [],
  paintedRed: [],
  paintedDark: [],
};

/** What the page asks of samples/photos/t60-warm-white-bare.jpg, as the README's command line does, but for its size: half as wide, it is measured in a third of the time. */
export function measureAsked(photo: PhotoId, changed: Partial<WindowAsked> = {}): MeasureAsked {
  const helpers = { lampOff: null, flatField: null, printPhoto: null };
  const scene = { room: 'dark', viewingDistanceMm: 500, reference: null } as const;
  return { photo, window: { ...window, ...changed }, light: 'warm-white', helpers, ...scene };
}
