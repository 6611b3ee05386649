import './wasm-only';
import sharp, { type Metadata } from 'sharp';
import { formatUnsupported, photoDamaged } from './photo-errors';
import type { StoredPixels } from './upright';

// Photos come one by one and are large: a cache would only hold memory.
sharp.cache(false);
sharp.concurrency(2);

/** What the header says. */
export interface StoredHeader {
  readonly width: number;
  readonly height: number;
  /** Bits a channel in the file. */
  readonly bitDepth: number;
  readonly space: 'grey' | 'rgb' | 'cmyk';
  readonly wide: boolean;
  readonly icc: Uint8Array | null;
}

/**
 * `ignoreIcc`: no conversion, codes as stored. `failOn: 'warning'`: a cut or damaged photo is an error; at the lower
 * levels a damaged scan is filled with grey. Our own pixel limit has been applied before.
 */
const openOptions = { ignoreIcc: true, failOn: 'warning', limitInputPixels: false, pages: 1 } as const;

const spaces: Readonly<Record<string, StoredHeader['space']>> = {
  'b-w': 'grey',
  grey16: 'grey',
  srgb: 'rgb',
  rgb: 'rgb',
  rgb16: 'rgb',
  cmyk: 'cmyk',
};

/** The library's message without the file's name and its own prefix. */
function reasonOf(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  const line = text.replace(/^Input (file|buffer) (has corrupt header: )?/, '').split('\n')[0];
  return line.replace(/[.\s]+$/, '').slice(0, 200) || 'it cannot be decoded';
}

export async function readSharpHeader(file: string, bytes: Uint8Array): Promise<StoredHeader> {
  let found: Metadata;
  try {
    found = await sharp(bytes, openOptions).metadata();
  } catch (error) {
    throw photoDamaged(file, reasonOf(error));
  }
  const space = spaces[found.space ?? ''];
  if (!space) throw formatUnsupported(file, `a picture in the colour space ${found.space}`);
  if (found.depth !== 'uchar' && found.depth !== 'ushort') {
    throw formatUnsupported(file, `a picture with samples of type ${found.depth}`);
  }
  if (!(found.width > 0 && found.height > 0)) throw photoDamaged(file, 'it has no size');
  const wide = found.depth === 'ushort';
  return {
    width: found.width,
    height: found.height,
    bitDepth: found.bitsPerSample ?? (wide ? 16 : 8),
    space,
    wide,
    icc: found.icc ? Uint8Array.from(found.icc) : null,
  };
}

/** Target spaces that keep samples as they are: without one, 16 bits come out as 8, and CMYK as RGB. */
const outputSpaces = { grey: ['b-w', 'grey16'], rgb: ['srgb', 'rgb16'], cmyk: ['cmyk', 'cmyk'] } as const;

export async function decodeWithSharp(file: string, bytes: Uint8Array, header: StoredHeader): Promise<StoredPixels> {
  const space = outputSpaces[header.space][header.wide ? 1 : 0];
  try {
    const { data, info } = await sharp(bytes, openOptions)
      .pipelineColourspace(space)
      .toColourspace(space)
      .raw({ depth: header.wide ? 'ushort' : 'uchar' })
      .toBuffer({ resolveWithObject: true });
    // A plain view: the slice() of a Buffer would not copy.
    const samples = header.wide
      ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2)
      : new Uint8Array(data.buffer, data.byteOffset, data.length);
    return { width: info.width, height: info.height, channels: info.channels, samples };
  } catch (error) {
    throw photoDamaged(file, reasonOf(error));
  }
}
