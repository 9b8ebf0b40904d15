import type { AttemptRecord } from '../../attempts/index.ts';
import type { Missed } from './most-missed.ts';
import { mostMissed } from './most-missed.ts';
import type { StandingRow } from './next-step.ts';

/** One line of the trainer's board. */
export type TraineeRow = {
  readonly person: string;
  readonly name: string;
  readonly attempts: number;
  /** newest attempt handed in */
  readonly last: AttemptRecord | null;
  readonly missed: readonly Missed[];
  readonly signed: readonly StandingRow[];
  /** signed once, and no longer in force */
  readonly lapsed: readonly StandingRow[];
};

/** @param attempts of this person, newest first */
export function traineeRow(
  { person, name }: { readonly person: string; readonly name: string },
  attempts: readonly AttemptRecord[],
  standings: readonly StandingRow[],
): TraineeRow {
  const handedIn = attempts.filter(({ handedInAt }) => handedInAt !== null);
  const inState = (...states: StandingRow['status']['state'][]) =>
    standings.filter(({ status }) => states.includes(status.state));
  return {
    person,
    name,
    attempts: handedIn.length,
    last: handedIn[0] ?? null,
    missed: mostMissed(handedIn).slice(0, 3),
    signed: inState('signed-off', 'in-part'),
    lapsed: inState('ended', 'withdrawn'),
  };
}
