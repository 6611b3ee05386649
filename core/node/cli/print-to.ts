import { AppError } from '../../base/errors';
import { systemWords } from '../system-words';

/**
 * Writes to standard output and waits until it is out. A reader that has gone (`| head`) is no error of anyone's.
 *
 * @throws AppError OUTPUT_NOT_WRITTEN: the disk that the output is sent to is full, say
 * @rule CL9
 */
export function printTo(stream: NodeJS.WritableStream, text: string): Promise<void> {
  return new Promise((resolve, reject) => {
    stream.write(text, (error?: Error | null) => {
      if (!error || ('code' in error && error.code === 'EPIPE')) resolve();
      else reject(notPrinted(error));
    });
  });
}

function notPrinted(error: Error): AppError {
  const message = `the output cannot be written: ${systemWords(error)}`;
  return new AppError(
    'usage',
    'OUTPUT_NOT_WRITTEN',
    message,
    'Send it to a place that has room, and that you may write to.',
  );
}
