import path from 'node:path';
import type { FoundOutline, FoundPhoto, FindRequest } from '../../contract/measure';
import { readArguments, usageError } from './arguments';
import { exitCodeOf } from './exit-codes';
import { printable } from '../../display/figure-text';
import { jsonText } from './rounded';
import type { Shell } from './shell';

const rules = { command: 'find', values: [], flags: ['json'] };

function requestOf(files: readonly string[], shell: Shell): FindRequest {
  const photos = files.map((file) => ({
    file,
    path: path.resolve(shell.folder, file),
    encoding: 'profile' as const,
    encodingStated: false,
    exposure: {},
  }));
  return { photos };
}

async function findInShell(request: FindRequest, shell: Shell): Promise<readonly FoundPhoto[]> {
  try {
    return await shell.runTask('find', request, {
      signal: shell.signal,
      onProgress: ({ file, photosDone, photosInAll }) =>
        shell.progress(`${photosDone} of ${photosInAll} photos searched: ${printable(file)}`),
    });
  } finally {
    shell.progress('');
  }
}

const pairsOf = ({ corners }: FoundOutline): [number, number][] => corners.map(({ column, row }) => [column, row]);

/** The contract's document of outlines. */
function documentOf(found: readonly FoundPhoto[]): unknown {
  const photos = found.map((photo) => {
    if ('error' in photo) return photo;
    const candidates = photo.candidates.map((one) => ({
      cornersPx: pairsOf(one),
      outline: one.outline,
      confidence: one.confidence,
    }));
    return { ...photo, candidates };
  });
  return { format: 'evendial-outlines', version: 1, photos };
}

function candidateText(one: FoundOutline, index: number): string {
  const corners = pairsOf(one)
    .map(([column, row]) => `${column.toFixed(1)},${row.toFixed(1)}`)
    .join(' ');
  const sure = one.confidence >= 0.5 ? 'sure' : 'unsure';
  return `  ${index + 1}  ${one.outline.padEnd(9)}  ${one.confidence.toFixed(2)} ${sure.padEnd(6)}  ${corners}`;
}

function textOf(found: readonly FoundPhoto[]): string {
  const blocks = found.map((photo) => {
    if ('error' in photo) return `${printable(photo.file)}\n  ${photo.error.message}\n  ${photo.error.remedy}`;
    const head = `${printable(photo.file)}  ${photo.widthPx} x ${photo.heightPx} px`;
    if (photo.candidates.length === 0) return `${head}\n  no lit window found`;
    return [head, ...photo.candidates.map(candidateText)].join('\n');
  });
  return `${blocks.join('\n\n')}\n`;
}

/** `evendial find`: the lit windows of photos, best first. @returns the exit code @rule CL15 */
export async function runFind(words: readonly string[], shell: Shell): Promise<number> {
  const given = readArguments(words, rules);
  if (given.files.length === 0) throw usageError('no photo is named', "Write 'evendial find PHOTO...'.");
  const found = await findInShell(requestOf(given.files, shell), shell);
  await shell.print(given.flags.has('json') ? jsonText(documentOf(found)) : textOf(found));
  if (found.some((photo) => 'candidates' in photo && photo.candidates.length === 0)) return exitCodeOf.outline;
  return found.some((photo) => 'error' in photo) ? exitCodeOf.photo : 0;
}
