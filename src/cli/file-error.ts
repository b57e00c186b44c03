import { PlystepError } from '../index.js';

/** What went wrong with a file, in words, with what to do. */
const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder. Check the name and the folder that you are in',
  EACCES: 'permission denied. Choose another place, or change who may use this one',
  EPERM: 'not permitted. Choose another place, or change who may use this one',
  EROFS: 'the disk is read-only. Choose another place',
  EISDIR: 'this is a folder, and a file is needed. Give the file in it',
  ENOTDIR: 'a part of this path is a file, and a folder is needed. Choose another place',
  EEXIST: 'a file of this name is in the way, and a folder is needed. Choose another place',
  ENOSPC: 'the disk is full. Free some room and try again',
  ENAMETOOLONG: 'the name is too long. Choose a shorter one',
  EMFILE: 'too many files are open. Close some programs and try again',
};

/** Where reading fails otherwise than writing: another place would not help. */
const READING: Readonly<Record<string, string>> = {
  EACCES: 'permission denied. Ask for leave to read it, or for a copy of your own',
  EPERM: 'not permitted. Ask for leave to read it, or for a copy of your own',
  ENOTDIR: 'a part of this path is a file, and a folder is needed. Check the path',
};

/** Turns a fault of the file system into a PlystepError with the code `file`; other errors pass unchanged. */
export function asFileError(error: unknown, file: string, doing: 'read' | 'write'): unknown {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return error;
  const reason =
    (doing === 'read' ? READING[error.code] : undefined) ??
    REASONS[error.code] ??
    `the system says ${error.code}`;
  return new PlystepError('file', `could not ${doing} it: ${reason}.`, { file });
}
