import { count, fields, OpaqueIdSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/**
 * A link for an inspector was opened. Nobody knows by whom, so `by` is the link itself; no address of a network
 * and no word about a browser is kept.
 */
export const shareOpened = defineKind({
  kind: 'share.opened',
  versions: [{ name: 'as first written' }],
  body: fields({
    link: OpaqueIdSchema,
    /** this opening, with those since the log was last told of one */
    openings: count(1, 1_000_000_000),
  }),
  agrees: ({ about, body, by }) => {
    if (about !== null) return { path: ['about'], message: 'must be null: a link is about nobody' };
    return by === body.link ? null : { path: ['by'], message: 'must be the link itself' };
  },
});
