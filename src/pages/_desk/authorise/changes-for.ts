import { can, type Viewer } from '../../../accounts/index.ts';
import { type AuthorisationStatus, isSigned } from '../../../competence/index.ts';
import type { Statement } from '../../../records/index.ts';
import { eventsOf } from '../events-of.ts';
import type { Workshop } from '../workshop.ts';
import { ACTIONS, CHANGES, type Change, type GivenEvent } from './change.ts';

/** What may be done from each state. What has ended is changed no more. */
const FROM: Readonly<Record<AuthorisationStatus['state'], readonly Change[]>> = {
  'in-force': ['suspend', 'refresh', 'end'],
  'not-started': ['suspend', 'end'],
  'awaits-second': ['second', 'suspend', 'end'],
  rests: ['second', 'refresh', 'suspend', 'end'],
  ended: [],
};

/** The changes a viewer is offered: those that fit the state, and that they may make. */
export function changesFor(
  viewer: Viewer,
  given: GivenEvent,
  state: AuthorisationStatus['state'],
): Change[] {
  const { person } = given.body.statement.who;
  return CHANGES.filter(
    (change) =>
      FROM[state].includes(change) &&
      can(viewer, ACTIONS[change], { org: viewer.org, person }) &&
      (change !== 'second' || given.by !== viewer.person),
  );
}

/** A sign-off that a refresh may name. */
export type NamedSignoff = {
  readonly id: string;
  readonly unit: string;
  readonly work: string;
  readonly day: string;
};

/** Sign-offs of this person, at this bench and for this work, the newest first. */
export function signoffsToName(workshop: Workshop, given: GivenEvent): NamedSignoff[] {
  const { who, bench, work } = given.body.statement;
  const events = eventsOf(workshop, who.person);
  const back = new Set(
    events.flatMap(({ kind, body }) =>
      kind === 'practical.withdrawn' && 'signoff' in body ? [String(body.signoff)] : [],
    ),
  );
  return events
    .filter(isSigned)
    .filter(({ id, altered }) => altered !== true && !back.has(id))
    .map(({ id, body }) => ({ id, statement: body.statement as unknown as Statement }))
    .filter(
      ({ statement }) =>
        statement.bench.id === bench.id &&
        work.includes(statement.work) &&
        statement.decision === 'signed-off',
    )
    .map(({ id, statement }) => ({
      id,
      unit: statement.unit.title,
      work: statement.work,
      day: statement.observedAt,
    }))
    .sort((a, b) => (a.day < b.day ? 1 : -1));
}
