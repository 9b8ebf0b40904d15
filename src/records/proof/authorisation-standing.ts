import type { LogEvent } from '../events/index.ts';
import { stoppedSignoffs } from './stopped-signoffs.ts';

/** Events with their places in the log, in order: what the status lists are made from. */
export type PlacedEvent = { readonly index: number; readonly event: LogEvent };

/** Places in the log to mark, for each list. */
export type StandingMarks = {
  /** sign-offs withdrawn or stopped in another unit, and authorisations ended or resting on one of those */
  readonly revocation: readonly number[];
  /** authorisations that rest until they are refreshed */
  readonly suspension: readonly number[];
};

type Given = {
  readonly index: number;
  readonly person: string;
  readonly bench: string;
  readonly basis: readonly string[];
  isEnded: boolean;
  isResting: boolean;
};

/** Puts every authorisation that something happened to into rest. */
function rest(given: Iterable<Given>, concerns: (one: Given) => boolean): void {
  for (const one of given) if (concerns(one)) one.isResting = true;
}

/** Follows one event; what came before an authorisation never touches it. */
function follow(event: LogEvent, given: ReadonlyMap<string, Given>): void {
  if (event.kind === 'authorisation.ended') {
    const one = given.get(event.body.authorisation);
    if (one !== undefined) one.isEnded = true;
  } else if (event.kind === 'authorisation.suspended') {
    rest(given.values(), (one) => one === given.get(event.body.authorisation));
  } else if (event.kind === 'authorisation.refreshed') {
    const one = given.get(event.body.authorisation);
    if (one !== undefined) one.isResting = false;
  } else if (event.kind === 'near-miss.reported') {
    const { bench, people } = event.body;
    rest(given.values(), (one) => one.bench === bench && people.includes(one.person));
  } else if (event.kind === 'bench.registered' && event.body.change !== 'entry') {
    rest(given.values(), (one) => one.bench === event.body.bench);
  }
}

/**
 * What the status lists of an organisation say, from its whole log. An authorisation rests after a
 * suspension, a near miss with that person at the bench, or a change of the machine or its guard; only a
 * refresh lifts it. A long break needs the rules and a clock: it is entered as a suspension.
 */
export function standingMarks(placed: Iterable<PlacedEvent>): StandingMarks {
  const events = [...placed];
  const given = new Map<string, Given>();
  const signoffs = new Map<string, number>();
  const withdrawn = stoppedSignoffs(events.map(({ event }) => event));
  for (const { event, index } of events) {
    if (event.kind === 'practical.signed') signoffs.set(event.body.signoff, index);
    else if (event.kind === 'practical.withdrawn') withdrawn.add(event.body.signoff);
    else if (event.kind === 'authorisation.given') {
      const { basis, bench, who } = event.body.statement;
      const fresh = { isEnded: false, isResting: false };
      given.set(event.id, { index, person: who.person, bench: bench.id, basis, ...fresh });
    } else follow(event, given);
  }
  const all = [...given.values()];
  const lost = all.filter((one) => one.isEnded || one.basis.some((id) => withdrawn.has(id)));
  return {
    revocation: [
      ...[...withdrawn].flatMap((id) => signoffs.get(id) ?? []),
      ...lost.map(({ index }) => index),
    ],
    suspension: all.filter(({ isResting }) => isResting).map(({ index }) => index),
  };
}
