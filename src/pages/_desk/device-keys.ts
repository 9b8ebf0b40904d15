import type { Site, Viewer } from '../../accounts/index.ts';
import { can } from '../../accounts/index.ts';
import type { DeviceKeyView } from '../../components/practical/device-view.ts';
import { keyUsesOf } from './key-uses.ts';

/** Whether this viewer may look at, and end, the keys of this person. */
export const mayEndKey = (viewer: Viewer, person: string): boolean =>
  person === viewer.person
    ? can(viewer, 'device-key.end', { org: viewer.org, person })
    : can(viewer, 'device-key.end-other', { org: viewer.org, person });

/** The device keys of a workshop that this viewer may end, their own first, and the newest first. */
export async function deviceKeysFor(viewer: Viewer, site: Site): Promise<DeviceKeyView[]> {
  const changes = await site.store.events({
    org: viewer.org,
    kinds: ['device-key.enrolled', 'device-key.ended'],
  });
  const uses = await keyUsesOf(viewer.org, site);
  const keys = new Map<string, DeviceKeyView>();
  for (const { event } of changes) {
    if (event === null) continue;
    const { keyId } = event.body;
    const key = keys.get(keyId);
    const at = event.received;
    if (event.kind === 'device-key.enrolled' && key === undefined) {
      const { label } = event.body;
      const { first = null, last = null, signed = 0 } = uses.get(keyId) ?? {};
      const use = { firstUsed: first, lastUsed: last, signed };
      keys.set(keyId, { keyId, person: event.by, label, enrolledAt: at, ...use, end: null });
    } else if (event.kind === 'device-key.ended' && key !== undefined) {
      const { reason } = event.body;
      keys.set(keyId, { ...key, end: key.end ?? { at, by: event.by, reason } });
    }
  }
  const isOwn = ({ person }: DeviceKeyView) => Number(person === viewer.person);
  return [...keys.values()]
    .filter(({ person }) => mayEndKey(viewer, person))
    .sort((a, b) => isOwn(b) - isOwn(a) || b.enrolledAt.localeCompare(a.enrolledAt));
}
