import { AppError, type ErrorKind } from '../../base/errors';

/** An error as it crosses to another thread, where classes are lost. */
export type SentError =
  | {
      readonly app: true;
      readonly kind: ErrorKind;
      readonly code: string;
      readonly message: string;
      readonly remedy: string;
    }
  | { readonly app: false; readonly message: string; readonly stack: string };

/** What an error becomes for its journey. @rule CL10 */
export function sentErrorOf(error: unknown): SentError {
  if (error instanceof AppError) {
    const { kind, code, message, remedy } = error;
    return { app: true, kind, code, message, remedy };
  }
  const defect = error instanceof Error ? error : new Error(String(error));
  return { app: false, message: defect.message, stack: defect.stack ?? defect.message };
}

/** The error again, of the class that it had. @rule CL10 */
export function errorOfSent(sent: SentError): Error {
  if (sent.app) return new AppError(sent.kind, sent.code, sent.message, sent.remedy);
  const defect = new Error(sent.message);
  defect.stack = sent.stack;
  return defect;
}
