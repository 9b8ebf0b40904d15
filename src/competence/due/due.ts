import { addDays, type Day, dayOf, type Instant } from '../dates.ts';
import { timeOf } from '../log/instants.ts';
import type { LogEvent } from '../log/log-event.ts';
import { type Log, readLog } from '../log/read-log.ts';
import { rulesAt } from '../rules/organisation-rules.ts';
import type { NeededUnit } from '../status/work-status.ts';
import type { Told, ToldKind } from '../told/told.ts';
import { dueAtBenches } from './due-at-benches.ts';
import { dueOfAnswers } from './due-of-answers.ts';
import { dueOfAuthorisations } from './due-of-authorisations.ts';
import { dueOfSignOffs } from './due-of-sign-offs.ts';

type DueSentence = Extract<ToldKind, `due.${string}`>;
/** What is to be done or is running out. */
export type DueKind = DueSentence extends `due.${infer Kind}` ? Kind : never;
export type DueRole = 'trainee' | 'trainer' | 'employer';

export type Due = {
  /** the same for the same thing as long as it is due */
  readonly id: string;
  readonly kind: DueKind;
  readonly person: string | null;
  readonly bench: string | null;
  readonly work: string | null;
  /** the day it falls on, which may have passed */
  readonly day: Day;
  readonly told: Told;
  /** the same in English */
  readonly text: string;
  /** roles it concerns; `trainee` is the person it is about, and nobody else's business of that role */
  readonly who: readonly DueRole[];
};

export type DueQuestion = {
  /** the whole log, in any order */
  readonly events: readonly LogEvent[];
  readonly at: Instant;
  /** those in the organisation today: who has left is reminded of nothing */
  readonly people: readonly { readonly person: string; readonly role: string }[];
  /** the register today */
  readonly benches: readonly {
    readonly id: string;
    readonly asset: string;
    readonly work: readonly string[];
  }[];
  readonly units: readonly NeededUnit[];
  readonly nameOf: (person: string) => string;
};

/** What every part of the list works from. */
export type DueAsked = DueQuestion & {
  readonly log: Log;
  /** milliseconds since 1970 */
  readonly now: number;
  readonly today: Day;
  /** last day that is near enough to be told */
  readonly notice: Day;
};

/**
 * What is due in an organisation at an instant, by day: sign-offs and authorisations that end within the
 * days of notice or ended that long ago, authorisations that rest or wait, appeals and practice that
 * wait for an answer, machines out of service or without the check of today. Pure.
 */
export function dueOf(question: DueQuestion): Due[] {
  const log = readLog(question.events);
  const now = timeOf(question.at);
  const today = dayOf(question.at);
  const notice = addDays(today, rulesAt(log, now).noticeDays);
  const asked: DueAsked = { ...question, log, now, today, notice };
  return [
    ...dueOfSignOffs(asked),
    ...dueOfAuthorisations(asked),
    ...dueOfAnswers(asked),
    ...dueAtBenches(asked),
  ].sort((a, b) => (a.day === b.day ? (a.id < b.id ? -1 : 1) : a.day < b.day ? -1 : 1));
}
