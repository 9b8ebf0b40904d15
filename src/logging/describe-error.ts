import { resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** What the log keeps of an error: what it is and where, never its message, which may hold what people typed. */
export type ErrorNote = {
  /** its class, and those of what caused it, outermost first */
  readonly kinds: readonly string[];
  /** code of the system or the database, such as ENOSPC */
  readonly code?: string;
  /** places in our own code, innermost first */
  readonly at: readonly string[];
};

const MOST_PLACES = 12;
const MOST_CAUSES = 4;

const CODE = /^[A-Z0-9_]{2,40}$/i;
const KIND = /^[A-Za-z][A-Za-z0-9]{0,60}$/;

const kindOf = (error: unknown): string =>
  error instanceof Error && KIND.test(error.name) ? error.name : typeof error;

/** "name (place)" of a line of a stack, when it lies below `root` and not in a package. */
function ownPlace(line: string, root: string): string | null {
  const found =
    /^ {4}at (?:(?:async )?([\w$.<>[\] #]{1,80}) \()?((?:file:\/\/)?\/[^\s()]+):(\d+):(\d+)\)?$/.exec(
      line,
    );
  if (found === null) return null;
  const [, name, given = '', row, column] = found;
  let path = given;
  try {
    if (given.startsWith('file://')) path = fileURLToPath(given);
  } catch {
    return null;
  }
  if (!path.startsWith(root + sep) || path.includes(`${sep}node_modules${sep}`)) return null;
  const place = `${path
    .slice(root.length + 1)
    .split(sep)
    .join('/')}:${row}:${column}`;
  return name === undefined ? place : `${name} (${place})`;
}

function placesOf(error: Error, root: string): string[] {
  const stack = error.stack ?? '';
  // the message comes first and may be of any shape, that of a place included
  const from = error.message === '' ? 0 : stack.indexOf(error.message) + error.message.length;
  return stack
    .slice(from)
    .split('\n')
    .flatMap((line) => ownPlace(line, root) ?? []);
}

/** @param root folder of our own code */
export function describeError(error: unknown, root: string = process.cwd()): ErrorNote {
  const kinds: string[] = [];
  let code: string | undefined;
  let at: string[] = [];
  for (let one = error, i = 0; one !== undefined && one !== null && i < MOST_CAUSES; i++) {
    kinds.push(kindOf(one));
    if (!(one instanceof Error)) break;
    const given =
      (one as { errcode?: unknown; code?: unknown }).errcode ?? (one as { code?: unknown }).code;
    if (code === undefined && given !== undefined && CODE.test(String(given))) code = String(given);
    const places = placesOf(one, resolve(root));
    if (places.length > 0) at = places;
    one = one.cause;
  }
  return { kinds, ...(code === undefined ? {} : { code }), at: at.slice(0, MOST_PLACES) };
}
