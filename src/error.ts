/** Stable codes of the errors that plystep throws. */
export type PlystepErrorCode =
  | 'not-xml'
  | 'not-svg'
  | 'limit'
  | 'bad-option'
  | 'bad-stack'
  | 'bad-number'
  | 'bad-sidecar'
  | 'aborted'
  | 'file';

/** Where in a text an error stands; lines and columns count from 1. */
export interface ErrorPlace {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
}

/**
 * The one class of errors thrown by plystep: a mistake of the caller, an unreadable file, or a limit.
 * What is wrong with a drawing that could be read is not thrown but returned as findings.
 */
export class PlystepError extends Error {
  override readonly name = 'PlystepError';
  readonly code: PlystepErrorCode;
  readonly place: ErrorPlace;

  constructor(code: PlystepErrorCode, message: string, place: ErrorPlace = {}) {
    super(message);
    this.code = code;
    this.place = place;
  }
}
