import { type MayWork, type MayWorkQuestion, mayWork } from '../authorisation/may-work.ts';
import { addMonths, type Day, endOfDay, type Instant, startOfDay } from '../dates.ts';
import { countsFrom, timeOf } from '../log/instants.ts';
import { readLog } from '../log/read-log.ts';
import { rulesAt } from '../rules/organisation-rules.ts';

/** Kinds after which somebody may do what they might not do before, or without a supervisor what they did with one. */
const TURNS = [
  'authorisation.given',
  'authorisation.seconded',
  'authorisation.suspended',
  'authorisation.refreshed',
  'authorisation.ended',
  'practical.signed',
  'practical.withdrawn',
  'practical.cosigned',
  'appeal.settled',
  'organisation.rules-set',
  'person.joined',
  'person.role-changed',
  'bench.returned',
] as const;

/** Every instant at which the answer may have turned to what it is, newest first, milliseconds since 1970. */
function turnsOf({ at, bench, events, units, work }: MayWorkQuestion): number[] {
  const log = readLog(events);
  const now = timeOf(at);
  const turns = TURNS.flatMap((kind) => log.of(kind).map((event) => countsFrom(event)));
  const started = (day: Day) => turns.push(startOfDay(day));
  const ended = (day: Day) => turns.push(endOfDay(day));
  for (const { body } of log.of('authorisation.given')) {
    const { statement } = body;
    if (statement.bench.id !== bench) continue;
    started(statement.from);
    ended(statement.until);
    ended(addMonths(statement.from, rulesAt(log, now).months));
  }
  for (const { body } of log.of('practical.signed')) {
    const { bench: watchedAt, validFrom } = body.statement;
    if (watchedAt.id === bench && validFrom !== null) started(validFrom);
  }
  if (units.some((unit) => unit.work.includes(work) && unit.evidence.practice !== null)) {
    for (const event of log.of('practice.confirmed')) turns.push(countsFrom(event));
  }
  return [...new Set(turns)].filter((turn) => turn <= now).sort((a, b) => b - a);
}

/**
 * Since when somebody may work, without a break and in the same way. For who rests: since when it
 * rests by a cause of its own, null where sign-offs are missing. Null for who may not.
 */
export function sinceWhen(question: MayWorkQuestion, found: MayWork): Instant | null {
  if (found.state === 'may-not') {
    const { authorisation } = found;
    return authorisation?.state === 'rests' ? (authorisation.causes[0]?.since ?? null) : null;
  }
  const turns = turnsOf(question);
  const first = turns.find((turn) => {
    const before = new Date(turn - 1).toISOString();
    return mayWork({ ...question, at: before }).state !== found.state;
  });
  return first === undefined ? null : new Date(first).toISOString();
}
