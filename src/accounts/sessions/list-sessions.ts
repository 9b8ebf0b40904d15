import type { Site } from '../site.ts';
import type { DeviceKind } from './device-kind.ts';
import { IDLE_S } from './limits.ts';

/** A row of one's own list: where and since when one is signed in. Instants are ISO in UTC. */
export type SessionLine = {
  readonly id: string;
  readonly device: DeviceKind;
  readonly since: string;
  readonly seenAt: string;
};

/** The sessions of a person that still go on, the newest first. */
export async function listSessions(person: string, site: Site, now: Date): Promise<SessionLine[]> {
  const rows = await site.store.db
    .selectFrom('session')
    .innerJoin('membership', 'membership.person', 'session.userId')
    .select(['session.id', 'session.device', 'session.createdAt', 'session.seenAt'])
    .select(['session.role as openedAs', 'membership.role'])
    .where('userId', '=', person)
    .where('expiresAt', '>', now.toISOString())
    .orderBy('session.createdAt', 'desc')
    .execute();
  return rows
    .filter(
      ({ seenAt, role, openedAs }) =>
        role === openedAs && now.getTime() - Date.parse(seenAt) <= IDLE_S[role] * 1000,
    )
    .map(({ id, device, createdAt, seenAt }) => ({ id, device, since: createdAt, seenAt }));
}
