import type { LogEvent } from '../../../competence/index.ts';
import type { BodyOf } from '../../../records/index.ts';

type Cause = BodyOf<'authorisation.suspended'>['cause'];

/** One thing that happened to an authorisation. `key` is its sentence in the sheet `authorisation`. */
export type HistoryLine = {
  readonly key:
    | 'given'
    | 'agrees'
    | 'disagrees'
    | 'suspended'
    | 'practical'
    | 'talked-through'
    | 'ended';
  readonly at: string;
  readonly by: string;
  readonly cause: Cause | null;
  readonly reason: string | null;
};

type Body = {
  readonly authorisation?: string;
  readonly answer?: 'agrees' | 'disagrees';
  readonly how?: 'practical' | 'talked-through';
  readonly cause?: Cause;
  readonly reason?: string;
  readonly note?: string | null;
};

function keyOf(kind: string, body: Body): HistoryLine['key'] | null {
  switch (kind) {
    case 'authorisation.given':
      return 'given';
    case 'authorisation.seconded':
      return body.answer ?? null;
    case 'authorisation.suspended':
      return 'suspended';
    case 'authorisation.refreshed':
      return body.how ?? null;
    case 'authorisation.ended':
      return 'ended';
    default:
      return null;
  }
}

/** What was done to one authorisation, in the order of the log. Altered records are left out. */
export function historyOf(events: readonly LogEvent[], id: string): HistoryLine[] {
  return events.flatMap((event): HistoryLine[] => {
    const body = event.body as Body;
    const isAbout =
      event.kind === 'authorisation.given' ? event.id === id : body.authorisation === id;
    const key = isAbout && event.altered !== true ? keyOf(event.kind, body) : null;
    if (key === null) return [];
    const reason = body.reason ?? body.note ?? null;
    return [{ key, at: event.at, by: event.by, cause: body.cause ?? null, reason }];
  });
}
