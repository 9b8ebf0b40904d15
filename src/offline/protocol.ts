/** What passes between a page and the worker that keeps the course, and what the build tells the worker. */

export type Kept = {
  readonly language: string;
  /** of the build that is kept, or being kept */
  readonly version: string;
  /** files kept, of so many */
  readonly done: number;
  readonly all: number;
  /** bytes of all of them before they are packed for the way */
  readonly bytes: number;
  /** ISO instant at which the last file came; null while some are missing */
  readonly at: string | null;
};

export type ToWorker =
  | { readonly do: 'keep'; readonly language: string }
  | { readonly do: 'keep-bench'; readonly path: string }
  | { readonly do: 'keep-sheet' }
  | { readonly do: 'remove' };

const isText = (value: unknown): value is string =>
  typeof value === 'string' && value.length > 0 && value.length < 200;

/** What a message asks for, or null: what is not known is not answered. */
export function readAsk(data: unknown): ToWorker | null {
  if (typeof data !== 'object' || data === null) return null;
  const { do: what, language, path } = data as Readonly<Record<string, unknown>>;
  if (what === 'keep') return isText(language) ? { do: what, language } : null;
  if (what === 'keep-bench')
    return isText(path) && path.startsWith('/') ? { do: what, path } : null;
  return what === 'keep-sheet' || what === 'remove' ? { do: what } : null;
}

export type FromWorker = { readonly kept: Kept } | { readonly removed: true };

/** The files of one language: pages by their paths without a slash at the end, and what they need. */
export type CourseFiles = {
  readonly pages: readonly string[];
  readonly files: readonly string[];
  readonly bytes: number;
};

/** What a build holds, worked out when it is made. */
export type BuiltList = {
  /** changes with any file that is kept */
  readonly version: string;
  readonly languages: Readonly<Record<string, CourseFiles>>;
  /** pages the server makes, asked for as somebody who is not signed in */
  readonly asked: Readonly<Record<string, readonly string[]>>;
  readonly benches: CourseFiles;
  /** the practical sheet, for devices of trainers */
  readonly sheet: CourseFiles;
};

/** How the caches of practice benches are called, and the one that holds what is known of the others. */
export const BUILT_BENCHES = 'benches-';
/** How the cache of the practical sheet is called. */
export const BUILT_SHEET = 'sheet-';
export const STATE_CACHE = 'kept-state';
export const stateKey = (language: string): string => `/kept-state/${language}`;

/** Paths are kept without a slash at the end: `/lessons/` and `/lessons` are one page. */
export const withoutSlash = (path: string): string => path.replace(/(.)\/+$/, '$1');
