import { can } from '../can.ts';
import { groupsOf } from '../groups.ts';
import { invitationsOf } from '../invitations.ts';
import { peopleOf } from '../people.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import type { Viewer } from '../viewer.ts';
import { type InvitationPlan, planInvitations } from './plan-invitations.ts';

/**
 * The dry run of a list of people against who is here and who is invited. What this very form has made before
 * does not count as invited, so that sending it again says what it said.
 */
export async function checkList(
  viewer: Viewer | null,
  asked: {
    /** id of the form */
    readonly form: string;
    readonly text: string;
    /** what is done with groups that are not there */
    readonly groups: 'make' | 'refuse';
  },
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<InvitationPlan>> {
  if (viewer === null || !can(viewer, 'invitation.make', { org: viewer.org })) {
    return refuseAs(403, '', { key: 'invitation.trainer' });
  }
  const people = await peopleOf(viewer.org, site);
  const open = (await invitationsOf(viewer.org, site, now)).filter(({ state }) => state === 'open');
  const groups = await groupsOf(viewer.org, site);
  return grant(
    planInvitations(
      asked.text,
      {
        members: people.map(({ name }) => name),
        invited: open.filter(({ id }) => !id.startsWith(`${asked.form}-`)).map(({ name }) => name),
        groups: groups.map(({ name }) => name),
      },
      asked.groups,
    ),
  );
}
