import { addDays, addMonths, type Day, dayOf, startOfDay } from '../dates.ts';
import { fileBy } from '../log/file-by.ts';
import { countsFrom } from '../log/instants.ts';
import type { Log } from '../log/read-log.ts';
import { practiceAt } from '../practice/practice.ts';
import { type Given, type Refresh, refreshesOf } from './refreshes.ts';

const dayAt = (at: number): Day => dayOf(new Date(at).toISOString());

const watchedOf = fileBy('practical.signed', ({ body }) => body.statement.who.person);
const checksBy = fileBy('bench.checked', ({ by }) => by);

/**
 * The days on which a person is known to have worked at the bench of an authorisation, oldest first:
 * practicals watched, practice confirmed, daily checks they did themselves, and refreshes.
 */
export function usesOf(log: Log, given: Given, now: number): Day[] {
  const { bench, who, work } = given.body.statement;
  const { person } = who;
  const practicals = watchedOf(log, person)
    .filter((event) => event.altered !== true && countsFrom(event) <= now)
    .map(({ body }) => body.statement)
    .filter((one) => one.trainer.person !== person)
    .filter((one) => one.bench.id === bench.id && work.includes(one.work))
    .map(({ observedAt }) => observedAt);
  const practice = practiceAt(log, person, now)
    .sessions.filter((one) => one.state === 'confirmed' && one.bench === bench.id)
    .filter((one) => work.includes(one.work))
    .map(({ endedAt }) => dayOf(endedAt));
  const checks = checksBy(log, person)
    .filter((event) => event.body.bench === bench.id)
    .filter((event) => event.altered !== true && countsFrom(event) <= now)
    .map((event) => dayAt(countsFrom(event)));
  const refreshed = refreshesOf(log, given, now).map(({ at }: Refresh) => dayAt(at));
  return [...new Set([...practicals, ...practice, ...checks, ...refreshed])]
    .filter((day) => startOfDay(day) <= now)
    .sort();
}

export type LastUse = {
  /** the last day it holds without the bench being used again */
  readonly until: Day;
  /** first days of breaks longer than the rule allows, oldest first */
  readonly breaks: readonly Day[];
};

/**
 * The last-use rule: an authorisation rests from the day after `months` without work at the bench. A use
 * after that does not wake it; a refresh does.
 * @param uses days, oldest first  @param from the first day of the authorisation
 */
export function lastUseOf(uses: readonly Day[], from: Day, months: number): LastUse {
  const base = uses.filter((day) => day <= from).at(-1) ?? from;
  const breaks: Day[] = [];
  let last = base;
  for (const day of uses.filter((one) => one > base)) {
    const end = addMonths(last, months);
    if (day > end) breaks.push(addDays(end, 1));
    last = day;
  }
  return { until: addMonths(last, months), breaks };
}
