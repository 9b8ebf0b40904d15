import type { StatusFinding } from './check-status.ts';
import { groupAt, textAt } from './json-shape.ts';
import type { ProofParts } from './proof-file.ts';
import { type Check, judge, type ProvedPractical, type ProvedRecord } from './verdict.ts';

/*
 * What the record says and whether it holds at a moment: its own period, and the status list's word.
 */

export function readRecord({ credential, event, names }: ProofParts): ProvedPractical {
  const statement = groupAt(event, 'body', 'statement');
  return {
    kind: 'practical',
    trainee: names.trainee?.name ?? null,
    trainer: names.trainer?.name ?? null,
    organisation: textAt(credential, 'issuer', 'name'),
    signoff: textAt(statement, 'signoff'),
    unit: textAt(statement, 'unit', 'title'),
    work: textAt(statement, 'work'),
    bench: textAt(statement, 'bench', 'asset'),
    observedAt: textAt(statement, 'observedAt'),
    validFrom: textAt(statement, 'validFrom'),
    validUntil: textAt(statement, 'validUntil'),
  };
}

/** First and last day. */
type Days = Pick<ProvedRecord, 'validFrom' | 'validUntil'>;

export type Period = 'before' | 'within' | 'after';

export function findPeriod({ validFrom, validUntil }: Days, at: string): Period {
  const day = at.slice(0, 10);
  if (day < validFrom) return 'before';
  return day > validUntil ? 'after' : 'within';
}

export function describePeriod(period: Period, { validFrom, validUntil }: Days, at: string): Check {
  const day = at.slice(0, 10);
  if (period === 'within')
    return judge('period', null, `${day} lies within ${validFrom} to ${validUntil}.`);
  if (period === 'after') return judge('period', `It ended on ${validUntil}.`, '');
  return {
    id: 'period',
    state: 'unknown',
    sentence: `It begins on ${validFrom} and says nothing of ${day}.`,
  };
}

/** A moment as people read it; anything else stays as it is. */
export const sayMoment = (at: string): string =>
  /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(at)
    ? `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`
    : at;

export function describeStatus(found: StatusFinding): Check {
  const id = 'withdrawal';
  if (found.state === 'altered')
    return judge(id, "The status list is not the issuer's, or was altered.", '');
  if (found.state === 'withdrawn')
    return judge(id, `It was withdrawn, by the status list of ${sayMoment(found.asOf)}.`, '');
  if (found.state === 'in-force')
    return judge(id, null, `It had not been withdrawn on ${sayMoment(found.asOf)}.`);
  return {
    id,
    state: 'unknown',
    sentence: `Nothing is known of a withdrawal after ${sayMoment(found.asOf)}.`,
  };
}
