import { countsFrom } from '../log/instants.ts';
import type { EventOf } from '../log/log-event.ts';
import type { Log } from '../log/read-log.ts';
import { heldRole } from '../log/role-at.ts';
import { rulesAt } from '../rules/organisation-rules.ts';
import type { Given } from './refreshes.ts';

/** Who has said what as the second person. */
export type Second = {
  /** the organisation asked for one when it was given, and asks for one still */
  readonly isNeeded: boolean;
  readonly isThere: boolean;
  /** who does not agree: as long as anybody does not, it waits */
  readonly disagreed: string | null;
};

/** The second person's word on an authorisation at an instant: neither who gave it nor who may. */
export function secondOf(log: Log, given: Given, now: number): Second {
  const asked = (at: number) => rulesAt(log, at).second !== 'nothing';
  const { by, who } = given.body.statement;
  const last = new Map<string, EventOf<'authorisation.seconded'>>();
  for (const event of log.of('authorisation.seconded')) {
    const { answer, authorisation } = event.body;
    if (authorisation !== given.id || countsFrom(event) > now) continue;
    if (event.by === by.person || event.by === who.person) continue;
    // an altered yes is none; an altered no still keeps it waiting
    if (event.altered === true && answer === 'agrees') continue;
    const held = { person: event.by, at: countsFrom(event) };
    if (heldRole(log, held, ['trainer', 'employer'])) last.set(event.by, event);
  }
  const words = [...last.values()];
  return {
    isNeeded: asked(now) && asked(countsFrom(given)),
    isThere: words.some(({ body }) => body.answer === 'agrees'),
    disagreed: words.find(({ body }) => body.answer === 'disagrees')?.by ?? null,
  };
}
