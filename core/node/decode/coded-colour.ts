/** Colour as numbers of ITU-T H.273, which AVIF and HEIC hold beside or instead of a profile. */
export interface CodedColour {
  readonly primaries: number;
  readonly transfer: number;
}

function signAt(view: DataView, at: number): string {
  return String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
}

/** First and last place of the box 'meta' at the top level; null where there is none. */
function findMeta(view: DataView): { from: number; to: number } | null {
  for (let at = 0; at + 16 <= view.byteLength;) {
    const short = view.getUint32(at);
    const size = short === 1 ? Number(view.getBigUint64(at + 8)) : short === 0 ? view.byteLength - at : short;
    if (signAt(view, at + 4) === 'meta') return { from: at, to: Math.min(at + size, view.byteLength) };
    if (size < 8) return null;
    at += size;
  }
  return null;
}

/**
 * The first colour box of kind nclx in an ISO media file: that of the main picture in all files that we met.
 *
 * @source ISO/IEC 14496-12, 12.1.5; ISO/IEC 23008-12 (from memory)
 */
export function readCodedColour(bytes: Uint8Array): CodedColour | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const meta = findMeta(view);
  if (!meta) return null;
  for (let at = meta.from; at + 12 <= meta.to; at++) {
    if (view.getUint8(at) !== 0x63 || signAt(view, at) !== 'colr' || signAt(view, at + 4) !== 'nclx') continue;
    return { primaries: view.getUint16(at + 8), transfer: view.getUint16(at + 10) };
  }
  return null;
}

/** Perceptual quantiser and hybrid log-gamma. */
const hdrTransfers = [16, 18];
/** BT.2020, DCI-P3, Display P3. */
const widePrimaries = [9, 11, 12];

/**
 * Why a picture with coded colour is not read, or null. Our formulas know neither the codes of high dynamic range nor
 * wide primaries without a profile; reading either as sRGB would give wrong light without a word.
 *
 * @param hasProfile  an ICC profile rules over the coded primaries
 * @source ITU-T H.273, tables 2 and 3 (from memory)
 */
export function codedColourRefusal(colour: CodedColour | null, hasProfile: boolean): string | null {
  if (!colour) return null;
  if (hdrTransfers.includes(colour.transfer)) return 'a picture of high dynamic range (HDR)';
  const isWide = !hasProfile && widePrimaries.includes(colour.primaries);
  return isWide ? 'a wide-gamut picture without a colour profile' : null;
}
