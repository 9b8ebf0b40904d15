import { fields, OpaqueIdSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Somebody ended a link for an inspector before its time. */
export const shareEnded = defineKind({
  kind: 'share.ended',
  versions: [{ name: 'as first written' }],
  body: fields({ link: OpaqueIdSchema }),
  agrees: ({ about, body, by }) => {
    if (about !== null) return { path: ['about'], message: 'must be null: a link is about nobody' };
    return by === body.link
      ? { path: ['by'], message: 'must be the person who ended it, not the link' }
      : null;
  },
});
