import {
  fields,
  InstantSchema,
  OpaqueIdSchema,
  text,
  UuidSchema,
  WorkSchema,
} from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** Longest single session, hours: a working day and no more. */
const LONGEST_HOURS = 12;
const HOUR = 3_600_000;

/**
 * Time at the real machine under somebody's eyes. It counts once the supervisor has confirmed it. `about`
 * is who practised; the id of the event is the session's.
 */
export const practiceNoted = defineKind({
  kind: 'practice.noted',
  versions: [{ name: 'as first written' }],
  body: fields({
    session: UuidSchema,
    bench: OpaqueIdSchema,
    work: WorkSchema,
    supervisor: OpaqueIdSchema,
    startedAt: InstantSchema,
    endedAt: InstantSchema,
    /** what was cut, as said across the bench */
    done: text(300),
  }),
  agrees: ({ about, body, id }) => {
    if (about === null) return { path: ['about'], message: 'must be the person who practised' };
    if (id !== body.session) return { path: ['id'], message: 'must be the session' };
    if (body.supervisor === about) {
      return { path: ['body', 'supervisor'], message: 'must be somebody else than who practised' };
    }
    const hours = (Date.parse(body.endedAt) - Date.parse(body.startedAt)) / HOUR;
    return hours > 0 && hours <= LONGEST_HOURS
      ? null
      : {
          path: ['body', 'endedAt'],
          message: `must be after startedAt, by at most ${LONGEST_HOURS} hours`,
        };
  },
});
