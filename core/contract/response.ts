import { z } from 'zod';
import { AppError } from '../base/errors';
import { sentencesOf } from './series';

/** f(z) = c0 + c1 z + c2 z^2 ..., f(1) = 1. */
const polynomial = z
  .array(z.number())
  .min(2, { error: 'must hold 2 numbers or more' })
  .max(5, { error: 'must hold 5 numbers at most' })
  .refine((factors) => Math.abs(factors.reduce((sum, factor) => sum + factor, 0) - 1) < 1e-3, {
    error: 'must add up to 1: the light of full scale is 1',
  });

const response = z.strictObject({
  format: z.literal('evendial-response'),
  version: z.literal(1),
  camera: z.strictObject({
    make: z.string().optional(),
    model: z.string().min(1, { error: 'must not be empty' }),
    iso: z.number().positive({ error: 'must be above 0' }),
    pictureStyle: z.string().nullable(),
  }),
  colourSpace: z.string(),
  curves: z.strictObject({ red: polynomial, green: polynomial, blue: polynomial }),
  isLinear: z.boolean(),
  leftOutError: z.number().min(0, { error: 'must be 0 or more' }),
  photoCount: z.number().int().min(3, { error: 'must be 3 or more' }),
});

/** A camera's tone curves as they are kept in a file, with what they hold for. */
export type StoredResponse = z.infer<typeof response>;

const remedy = 'Name a file that --save-response wrote.';

function jsonOf(text: string, called: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new AppError('usage', 'RESPONSE_INVALID', `${called} is not JSON: ${reason}`, remedy);
  }
}

/**
 * Reads the text of a stored response. Unknown keys are refused with their path.
 *
 * @throws AppError RESPONSE_INVALID of kind usage, with the places; RESPONSE_TOO_NEW
 * @rule BR9
 */
export function readResponse(text: string, called: string): StoredResponse {
  const given = jsonOf(text, called);
  const version = typeof given === 'object' && given !== null && 'version' in given ? given.version : undefined;
  if (typeof version === 'number' && version > 1) {
    const message = `${called} is a stored response of version ${version}; this program reads version 1`;
    throw new AppError('usage', 'RESPONSE_TOO_NEW', message, 'Use a newer version of this program.');
  }
  const read = response.safeParse(given);
  if (read.success) return read.data;
  const places = read.error.issues.flatMap((issue) => sentencesOf(issue, given)).slice(0, 8);
  const message = `${called} is not a valid stored response:\n  ${places.join('\n  ')}`;
  throw new AppError('usage', 'RESPONSE_INVALID', message, remedy);
}
