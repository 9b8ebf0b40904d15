import { type Day, earliestOf, type Instant } from '../dates.ts';
import type { LogEvent } from '../log/log-event.ts';
import { sayToldInEnglish, type Told } from '../told/told.ts';
import type { Evidence } from './evidence.ts';
import { tellUnitStatus } from './tell-status.ts';
import { type UnitState, unitStatusOf } from './unit-status.ts';
import type { RuleLine } from './weigh-evidence.ts';

/** `in-part`: some of the units this work needs are signed off, and none has been withdrawn. */
export type WorkState = UnitState | 'in-part';

/** A unit as far as a status needs to know it. */
export type NeededUnit = {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly work: readonly string[];
  /** what it takes, besides a trainer's word */
  readonly evidence: Evidence;
};

export type StatusLine = {
  readonly unit: NeededUnit;
  readonly state: UnitState;
  /** one clause, no full stop, in English */
  readonly text: string;
  /** the same as words and days, for another language */
  readonly told: Told;
  /** every rule of the unit, met or missing */
  readonly rules: readonly RuleLine[];
  /** last day, when signed off or ended */
  readonly until: Day | null;
  /** id of the signed record that decided it, to link to its proof */
  readonly signoff: string | null;
};

export type WorkStatus = {
  readonly state: WorkState;
  /** the first day any part of it runs out; null when nothing is in force or has ended */
  readonly until: Day | null;
  readonly because: readonly StatusLine[];
};

export type WorkQuestion = {
  readonly events: readonly LogEvent[];
  readonly person: string;
  readonly bench: string;
  readonly work: string;
  readonly at: Instant;
  /** every unit of the course; those for this work are picked here */
  readonly units: readonly NeededUnit[];
  readonly nameOf: (person: string) => string;
};

function stateOf(lines: readonly StatusLine[]): WorkState {
  const has = (state: UnitState) => lines.some((line) => line.state === state);
  if (lines.length > 0 && lines.every(({ state }) => state === 'signed-off')) return 'signed-off';
  if (has('withdrawn')) return 'withdrawn';
  if (has('signed-off')) return 'in-part';
  return has('ended') ? 'ended' : 'not-yet';
}

/**
 * Where a person stands with one kind of work on one bench at an instant, explained line by line.
 * A pure function of the log and the instant: it takes every unit the work needs to be signed off.
 */
export function statusOf(question: WorkQuestion): WorkStatus {
  const { units, work, nameOf } = question;
  const because = units
    .filter((unit) => unit.work.includes(work))
    .sort((a, b) => a.number - b.number)
    .map((unit): StatusLine => {
      const status = unitStatusOf({ ...question, unit });
      const dated = status.state === 'signed-off' || status.state === 'ended';
      const told = tellUnitStatus(status, nameOf);
      return {
        unit,
        state: status.state,
        text: sayToldInEnglish(told),
        told,
        rules: status.rules,
        until: dated ? status.until : null,
        signoff: status.by?.body.signoff ?? null,
      };
    });
  const state = stateOf(because);
  const counted = because.filter((line) =>
    state === 'ended' ? line.state === 'ended' : line.state === 'signed-off',
  );
  const until = earliestOf(counted.flatMap((line) => (line.until === null ? [] : [line.until])));
  return { state, until: state === 'withdrawn' || state === 'not-yet' ? null : until, because };
}

const WORDS: Record<WorkState, string> = {
  'signed-off': 'Signed off',
  'in-part': 'Signed off in part',
  'not-yet': 'Not yet',
  ended: 'Ended',
  withdrawn: 'Withdrawn',
};

/** The state in the words every screen uses. */
export const nameState = (state: WorkState): string => WORDS[state];
