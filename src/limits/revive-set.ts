import { compileEnd, compileReaders } from './compile-limit.ts';
import type { End, Limit, Wanted } from './limit.ts';
import type { LimitSet } from './limit-set.ts';
import { unitScale } from './published-unit.ts';

type Ends = 'min' | 'max';

/** An end as it was; one that hangs on the bench was lost on the way and is made again from what is written. */
function reviveEnd(
  limit: Limit,
  wanted: Extract<Wanted, { kind: 'size' }>,
  which: Ends,
): End | null {
  const end = wanted[which];
  if (end === null || typeof end === 'number') return end;
  const written = limit.asWritten[which];
  return written === null ? null : compileEnd(written, unitScale(limit.published));
}

function reviveWanted(limit: Limit): Wanted {
  const { wanted } = limit;
  if (wanted.kind !== 'size') return wanted;
  return {
    ...wanted,
    min: reviveEnd(limit, wanted, 'min'),
    max: reviveEnd(limit, wanted, 'max'),
  };
}

/**
 * A limit set that went through JSON, able to judge again: what is compiled does not survive the way. For a
 * set this site sent itself; a file somebody wrote is read by `readLimitSet`.
 */
export const reviveLimitSet = (plain: LimitSet): LimitSet => ({
  ...plain,
  limits: plain.limits.map((limit) => {
    const wanted = reviveWanted(limit);
    return { ...limit, wanted, ...compileReaders({ ...limit, wanted }) };
  }),
});
