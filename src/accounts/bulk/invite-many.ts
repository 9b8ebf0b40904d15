import { createHmac } from 'node:crypto';
import { z } from 'zod';
import { newId } from '../../records/index.ts';
import type { StoreWrite } from '../../store/index.ts';
import { can } from '../can.ts';
import { enterInvitation } from '../enter-invitation.ts';
import { plainName } from '../groups.ts';
import { INVITATION_DAYS } from '../invitations.ts';
import { grant, type Outcome, refuseAs } from '../problems.ts';
import type { Site } from '../site.ts';
import type { Viewer } from '../viewer.ts';
import type { InvitationPlan, PlannedInvitation } from './plan-invitations.ts';

/** One link to hand out. */
export type MadeInvitation = Omit<PlannedInvitation, 'row'> & {
  /** path of the link; the token in it is shown with the answer to this form and kept nowhere */
  readonly path: string;
  /** ISO instant */
  readonly expires: string;
};

/**
 * The token of one row: made from the form's id and the site's own secret, so that pressing twice shows the
 * same links again and nobody who knows the id can make one.
 */
const tokenOf = (site: Site, org: string, invitation: string): string =>
  createHmac('sha256', Buffer.from(site.siteKey.deriveSecret('bulk-invitations'), 'hex'))
    .update(`${org}/${invitation}`)
    .digest('base64url');

async function groupIds(
  { db }: StoreWrite,
  org: string,
  newGroups: readonly string[],
  madeAt: string,
): Promise<ReadonlyMap<string, string>> {
  const known = await db
    .selectFrom('person_group')
    .select(['id', 'name'])
    .where('org', '=', org)
    .execute();
  const ids = new Map(known.map(({ id, name }) => [plainName(name), id]));
  for (const name of newGroups) {
    if (ids.has(plainName(name))) continue;
    const id = newId();
    await db.insertInto('person_group').values({ id, org, name, madeAt }).execute();
    ids.set(plainName(name), id);
  }
  return ids;
}

/** The links of a form sent before: the same again. Refused where this form made links for other people. */
function sameAgain(
  site: Site,
  org: string,
  plan: InvitationPlan,
  before: readonly { id: string; name: string; role: string; expiresAt: string }[],
  form: string,
): Outcome<readonly MadeInvitation[]> {
  const rows = new Map(before.map((row) => [row.id, row]));
  const made = plan.good.map(({ row, ...one }) => {
    const id = `${form}-${row}`;
    const kept = rows.get(id);
    if (kept === undefined || kept.name !== one.name || kept.role !== one.role) return null;
    return { ...one, path: `/invitation/${tokenOf(site, org, id)}`, expires: kept.expiresAt };
  });
  const whole = made.filter((one) => one !== null);
  return whole.length === before.length && whole.length === made.length
    ? grant(whole)
    : refuseAs(409, '', { key: 'invitation.other-list' });
}

/** The invitations a form has made so far, by its id. */
export const madeByForm = (
  site: Pick<StoreWrite, 'db'> | Site['store'],
  org: string,
  form: string,
) =>
  site.db
    .selectFrom('invitation')
    .select(['id', 'name', 'role', 'expiresAt'])
    .where('org', '=', org)
    .where('id', 'like', `${form}-%`)
    .execute();

/**
 * Invites everybody in a plan, and makes its new groups, in one transaction.
 * @param form id of the form, UUIDv7: sent twice it gives the same links and makes nothing new
 */
export async function inviteMany(
  viewer: Viewer | null,
  form: string,
  plan: InvitationPlan,
  site: Site,
  now: Date = new Date(),
): Promise<Outcome<readonly MadeInvitation[]>> {
  if (viewer === null || !can(viewer, 'invitation.make', { org: viewer.org })) {
    return refuseAs(403, '', { key: 'invitation.trainer' });
  }
  if (!z.uuidv7().safeParse(form).success || plan.good.length === 0) {
    return refuseAs(400, '', { key: 'invitation.no-list' });
  }
  const madeAt = now.toISOString();
  const expires = new Date(now.getTime() + INVITATION_DAYS * 86_400_000).toISOString();
  return site.store.write(async (write) => {
    const before = await madeByForm(write, viewer.org, form);
    if (before.length > 0) return sameAgain(site, viewer.org, plan, before, form);
    const groups = await groupIds(write, viewer.org, plan.newGroups, madeAt);
    const made: MadeInvitation[] = [];
    for (const { row, name, role, group } of plan.good) {
      const id = `${form}-${row}`;
      const token = tokenOf(site, viewer.org, id);
      const inGroup = group === null ? null : (groups.get(plainName(group)) ?? null);
      await enterInvitation(
        write,
        viewer,
        { id, token, name, role, group: inGroup },
        { madeAt, expires },
      );
      made.push({ name, role, group, path: `/invitation/${token}`, expires });
    }
    return grant(made);
  });
}
