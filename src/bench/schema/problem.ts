import type { z } from 'zod';

/** What is wrong with a value somebody gave us: where, and one sentence that says what it may be. */
export type Problem = { readonly path: string; readonly message: string };

type Issue = z.core.$ZodIssue;

function formatPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>((text, key) => {
    if (typeof key === 'number') return `${text}[${key}]`;
    return text === '' ? String(key) : `${text}.${String(key)}`;
  }, '');
}

/** A union fails in every branch; the branch that got furthest says most. */
function deepest(
  issue: Issue,
  prefix: readonly PropertyKey[],
): { issue: Issue; path: PropertyKey[] } {
  const path = [...prefix, ...issue.path];
  if (issue.code !== 'invalid_union') return { issue, path };
  const nested = issue.errors.flatMap((branch) => branch.slice(0, 1).map((e) => deepest(e, path)));
  const best = nested.reduce<(typeof nested)[number] | undefined>(
    (found, one) => (found === undefined || one.path.length > found.path.length ? one : found),
    undefined,
  );
  return best !== undefined && best.path.length > path.length ? best : { issue, path };
}

/**
 * The first thing wrong, as one sentence that starts with the field's name.
 * `whole` names the value itself, for when no single field is to blame.
 */
export function describeProblem(error: z.ZodError, whole = 'The file'): Problem {
  const first = error.issues[0];
  if (first === undefined) return { path: '', message: `${whole} cannot be read.` };
  const { issue, path } = deepest(first, []);
  const where = formatPath(path);
  const message = issue.message.replace(/\.$/, '');
  return { path: where, message: `${where === '' ? whole : where} ${message}.` };
}
