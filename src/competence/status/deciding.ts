import { countsFrom } from '../log/instants.ts';
import type { PracticalSigned } from '../log/log-event.ts';
import type { Log } from '../log/read-log.ts';
import { rulesAt } from '../rules/organisation-rules.ts';
import { type Place, practicalsAt, type Watched } from './practicals.ts';

export const isSignedOff = ({ event }: Watched): boolean =>
  event.body.statement.decision === 'signed-off';

/**
 * Whether a practical needs a second trainer: the organisation asked for one when it was signed, and
 * asks for one still. A rule does not reach back.
 */
export function needsSecond(log: Log, event: PracticalSigned, now: number): boolean {
  const asked = (at: number) => rulesAt(log, at).second === 'practical-and-authorisation';
  return asked(now) && asked(countsFrom(event));
}

/**
 * Leaves out sign-offs by the trainer whose practical is to be watched again by another, until another
 * has. @param practicals newest first
 */
function withoutBarred(practicals: readonly Watched[]): Watched[] {
  let barred: string | null = null;
  const kept: Watched[] = [];
  for (const practical of [...practicals].reverse()) {
    const { trainer } = practical.event.body.statement;
    if (barred !== null && barred !== trainer.person) barred = null;
    if (barred === null || !isSignedOff(practical)) kept.push(practical);
    if (practical.watchAgain) barred = trainer.person;
  }
  return kept.reverse();
}

export type Standing = {
  /** those that decide, newest first */
  readonly held: readonly Watched[];
  /** sign-offs that wait for a second trainer: they change nothing yet */
  readonly waiting: readonly Watched[];
};

/** The practicals of one place that decide at an instant, and those that wait for a second trainer. */
export function standingPracticals(log: Log, place: Place, now: number): Standing {
  const all = withoutBarred(
    // a "not yet" taken back is as if it had not been written; a sign-off taken back still decides
    practicalsAt(log, place, now).filter((one) => isSignedOff(one) || one.withdrawal === null),
  );
  const waits = (one: Watched) =>
    isSignedOff(one) &&
    !one.agreed &&
    one.disagreed === null &&
    one.withdrawal === null &&
    one.stop === null &&
    needsSecond(log, one.event, now);
  return {
    held: all.filter((one) => !waits(one)),
    waiting: all.filter(waits),
  };
}
