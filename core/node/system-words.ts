/** What the system says about files, in plain words. */
const words: Readonly<Record<string, string>> = {
  ENOENT: 'there is no file or folder of this name',
  ENOTDIR: 'a part of its path is no folder',
  EISDIR: 'it is a folder',
  EACCES: 'it is not permitted',
  EPERM: 'it is not permitted',
  EROFS: 'the disk can only be read',
  ENOSPC: 'the disk is full',
  EEXIST: 'there is a file of this name already',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links lead in a circle',
  EIO: 'the disk or the connection failed',
  EMFILE: 'too many files are open',
  EBUSY: 'another program is using it',
};

/** Why a file or folder could not be used; a rare reason keeps the system's code for whoever helps. @rule CL17 */
export function systemWords(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (Object.hasOwn(words, code)) return words[code];
  return code === '' ? 'the system refused it' : `the system refused it (${code})`;
}
