import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { MeasureRequest, MeasureResult } from '../../contract/measure';
import { readResponse } from '../../contract/response';
import { systemWords } from '../system-words';
import { usageError } from './arguments';
import type { Shell } from './shell';
import { writeWholeFile } from './whole-files';

/** The request with a stored tone curve for every single photo. @throws AppError of kind usage @rule BR9 */
export async function withStoredResponse(
  request: MeasureRequest,
  place: string,
  called: string,
): Promise<MeasureRequest> {
  let text: string;
  try {
    text = await readFile(place, 'utf8');
  } catch (error) {
    const message = `the stored response ${called} cannot be read: ${systemWords(error)}`;
    throw usageError(message, 'Check its name and the folder.', 'RESPONSE_NOT_READ');
  }
  const response = readResponse(text, called);
  return { ...request, jobs: request.jobs.map((job) => (job.bracket ? job : { ...job, response })) };
}

/** Writes the tone curve that an exposure series told; says why there is none. @rule BR9 */
export async function saveResponse(result: MeasureResult, called: string, shell: Shell): Promise<void> {
  const found = result.windows.flatMap((entry) => ('reading' in entry && entry.response ? [entry.response] : []));
  if (found.length === 0) {
    shell.tell(
      `No tone curve was written to ${called}: the series is refused or doubted, or does not tell camera and ISO.`,
    );
    return;
  }
  await writeWholeFile(path.resolve(shell.folder, called), `${JSON.stringify(found[0], null, 2)}\n`, shell.signal);
}
