import type { Answer, Work } from '../../assessment/index.ts';

/** What was done, of an answer that is made of doings. */
const doings = (answer: Answer): readonly unknown[] | null =>
  answer.kind === 'find' ? answer.actions : answer.kind === 'set' ? answer.moves : null;

/** A reading is written down after the tool was laid, so it may still come or be mended. */
function bare(doing: unknown): string {
  const { read: _read, ...rest } = doing as Record<string, unknown>;
  return JSON.stringify(rest, Object.keys(rest).sort());
}

/**
 * Whether `next` only goes on from `before`: what was done at a bench is never undone, least of all by
 * sending it again without the part one regrets. Answers that are chosen may be chosen anew.
 */
export function goesOnFrom(before: Work, next: Work): boolean {
  return Object.entries(before).every(([task, old]) => {
    const now = Object.hasOwn(next, task) ? next[task] : undefined;
    if (now === undefined || now.kind !== old.kind) return false;
    const was = doings(old);
    const is = doings(now);
    if (was === null || is === null) return true;
    return was.length <= is.length && was.every((one, i) => bare(one) === bare(is[i]));
  });
}
