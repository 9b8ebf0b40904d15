import { authorisationsOf } from '../authorisation/authorisations.ts';
import type { AuthorisationStatus } from '../authorisation/judge-authorisation.ts';
import { addDays, addMonths, dayOf, earlierOf } from '../dates.ts';
import { rulesAt } from '../rules/organisation-rules.ts';
import type { Due, DueAsked } from './due.ts';
import { makeDue } from './make-due.ts';

/** An authorisation is told about no longer when a newer one covers its bench and all its work. */
const isReplaced = (one: AuthorisationStatus, all: readonly AuthorisationStatus[]): boolean =>
  all.some(
    ({ givenAt, state, statement }) =>
      givenAt > one.givenAt &&
      state !== 'ended' &&
      statement.bench.id === one.statement.bench.id &&
      one.statement.work.every((work) => statement.work.includes(work)),
  );

function dueOfOne(one: AuthorisationStatus, asked: DueAsked): Due[] {
  const { log, notice, now, today } = asked;
  const { id, state, statement, until } = one;
  const parts = {
    person: statement.who.person,
    bench: statement.bench.id,
    works: statement.work,
    of: [id],
  };
  const own = addMonths(statement.from, rulesAt(log, now).months);
  const end = earlierOf(own, statement.until);
  const ending = (kind: 'authorisation-ends' | 'authorisation-ended') =>
    makeDue({ ...parts, kind, day: end, who: ['trainee', 'trainer', 'employer'] });
  const soon = end <= notice ? [ending('authorisation-ends')] : [];
  if (state === 'ended') {
    // taken back before its end: somebody decided so, and nothing is to be done
    const ranOut = end < today && until === end;
    const lately = addDays(end, Math.round((Date.parse(notice) - Date.parse(today)) / 86_400_000));
    return ranOut && lately >= today ? [ending('authorisation-ended')] : [];
  }
  if (state === 'awaits-second') {
    const day = dayOf(one.givenAt);
    return [makeDue({ ...parts, kind: 'awaits-second', day, who: ['trainer', 'employer'] })];
  }
  if (state === 'rests') {
    const since = one.causes[0];
    // sign-offs that are missing have lines of their own
    if (since === undefined) return soon;
    const who = ['trainee', 'trainer', 'employer'] as const;
    return [makeDue({ ...parts, kind: 'rests', day: dayOf(since.since), who }), ...soon];
  }
  const isLastUse = until < end && until <= notice;
  return isLastUse
    ? [...soon, makeDue({ ...parts, kind: 'long-break', day: until, who: ['trainee', 'trainer'] })]
    : soon;
}

/** Authorisations that end, rest, wait for a second person, or will rest for want of use. */
export const dueOfAuthorisations = (asked: DueAsked): Due[] =>
  asked.people.flatMap(({ person }) => {
    const all = authorisationsOf({ ...asked, person });
    return all.filter((one) => !isReplaced(one, all)).flatMap((one) => dueOfOne(one, asked));
  });
