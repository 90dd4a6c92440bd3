/** What a system's refusal of a file means, in words. */

const MEANINGS: Readonly<Record<string, string>> = {
  EACCES: 'this account may not open it',
  EDQUOT: 'the room that this account has on the disk is used up',
  EEXIST: 'something else has this name',
  EFBIG: 'the file is larger than the disk takes',
  EIO: 'the disk does not answer',
  EISDIR: 'it is a folder',
  ELOOP: 'its links lead round in a ring',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'its name is too long',
  ENOENT: 'there is no such file or folder',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'a part of its path is a file',
  EPERM: 'this account may not open it',
  EROFS: 'the disk cannot be written to',
}

/**
 * Why the system refused: in words with its code behind them (POSIX.1-2017, `errno.h`), the code
 * alone where it has none here, and the error's own words where it has no code.
 */
export function systemWords(error: unknown): string {
  if (!(error instanceof Error)) return String(error)
  if (!('code' in error) || typeof error.code !== 'string') return error.message
  const meaning = MEANINGS[error.code]
  return meaning === undefined ? error.code : `${meaning} (${error.code})`
}
