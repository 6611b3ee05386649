import { usageError } from './arguments';

/** `evendial start`, what `npm start` calls. */
export function runStart(): never {
  const remedy = 'Use the command line: evendial demo shows what it measures; evendial help measure explains it.';
  throw usageError('the app is not built yet', remedy, 'NOT_BUILT_YET');
}
