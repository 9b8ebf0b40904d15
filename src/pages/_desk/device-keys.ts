import type { Site, Viewer } from '../../accounts/index.ts';
import { can } from '../../accounts/index.ts';
import type { DeviceKeyView } from '../../components/practical/device-view.ts';

/** Whether this viewer may look at, and end, the keys of this person. */
export const mayEndKey = (viewer: Viewer, person: string): boolean =>
  person === viewer.person
    ? can(viewer, 'device-key.end', { org: viewer.org, person })
    : can(viewer, 'device-key.end-other', { org: viewer.org, person });

/** The device keys of a workshop that this viewer may end, their own first, and the newest first. */
export async function deviceKeysFor(viewer: Viewer, { store }: Site): Promise<DeviceKeyView[]> {
  const all = await store.events({
    org: viewer.org,
    kinds: ['device-key.enrolled', 'device-key.ended', 'practical.signed', 'practical.cosigned'],
  });
  const keys = new Map<string, DeviceKeyView>();
  for (const { event } of all) {
    if (event === null) continue;
    const { keyId } = event.body;
    const key = keys.get(keyId);
    const at = event.received;
    if (event.kind === 'device-key.enrolled') {
      const { label } = event.body;
      const person = event.by;
      const fresh = { firstUsed: null, lastUsed: null, signed: 0, end: null };
      if (key === undefined) keys.set(keyId, { keyId, person, label, enrolledAt: at, ...fresh });
    } else if (key === undefined) {
      // signed with a key that was never enrolled: the record itself reads as broken
    } else if (event.kind === 'device-key.ended') {
      const { reason } = event.body;
      keys.set(keyId, { ...key, end: key.end ?? { at, by: event.by, reason } });
    } else {
      const { firstUsed, signed } = key;
      keys.set(keyId, { ...key, firstUsed: firstUsed ?? at, lastUsed: at, signed: signed + 1 });
    }
  }
  const isOwn = ({ person }: DeviceKeyView) => Number(person === viewer.person);
  return [...keys.values()]
    .filter(({ person }) => mayEndKey(viewer, person))
    .sort((a, b) => isOwn(b) - isOwn(a) || b.enrolledAt.localeCompare(a.enrolledAt));
}
