import type { Viewer } from '../../accounts/index.ts';
import type { BodyOf, DraftOf, EventKindName } from '../../records/index.ts';

/** An event by this viewer, now, of a kind that is at its first version. */
export const draftFor = <Kind extends EventKindName>(
  viewer: Viewer,
  kind: Kind,
  { id, about, body }: { readonly id: string; readonly about: string; readonly body: BodyOf<Kind> },
): DraftOf<Kind> => ({
  id,
  kind,
  version: 1,
  org: viewer.org,
  at: new Date().toISOString(),
  by: viewer.person,
  about,
  body,
});
