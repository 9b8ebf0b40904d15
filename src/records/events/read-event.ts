import type { z } from 'zod';
import { describeProblem, type Problem } from '../../bench/index.ts';
import { currentVersion, type EventKind, migrateBody } from './define-kind.ts';
import { DraftEnvelopeSchema, EnvelopeSchema } from './envelope.ts';
import { EVENT_KINDS, type EventDraft, isEventKind, type LogEvent } from './registry.ts';

type Read<Event> =
  | { readonly ok: true; readonly event: Event }
  | { readonly ok: false; readonly error: Problem };

type Framed = z.output<typeof DraftEnvelopeSchema>;

/** Body brought up to date and checked; adds a problem to `context` instead of throwing. */
function readBody<Event extends Framed>(event: Event, context: z.core.$RefinementCtx): Event {
  const complain = (path: readonly PropertyKey[], message: string) => {
    context.issues.push({ code: 'custom', path: [...path], message, input: event });
  };
  if (!isEventKind(event.kind)) {
    complain(['kind'], `must name a kind of event: ${Object.keys(EVENT_KINDS).join(', ')}`);
    return event;
  }
  const kind = EVENT_KINDS[event.kind] as unknown as EventKind;
  const newest = currentVersion(kind);
  if (event.version > newest) {
    complain(['version'], `must be a whole number from 1 to ${newest} for ${event.kind}`);
    return event;
  }
  const body = kind.body.safeParse(migrateBody(kind, event.version, event.body));
  if (!body.success) {
    for (const issue of body.error.issues) {
      context.issues.push({
        ...issue,
        path: ['body', ...issue.path],
        input: event,
      } as z.core.$ZodRawIssue);
    }
    return event;
  }
  const current = { ...event, version: newest, body: body.data as Event['body'] };
  const disagreement = kind.agrees(current);
  if (disagreement !== null) complain(disagreement.path, disagreement.message);
  return current;
}

/** An event on its way to the log, its body brought up to the current version of its kind. */
export const EventDraftSchema = DraftEnvelopeSchema.transform(readBody);

/** An event in the log, its body brought up to the current version of its kind. */
export const EventSchema = EnvelopeSchema.transform(readBody);

function read<Event>(schema: z.ZodType, value: unknown): Read<Event> {
  const parsed = schema.safeParse(value);
  return parsed.success
    ? { ok: true, event: parsed.data as Event }
    : { ok: false, error: describeProblem(parsed.error, 'The event') };
}

/** An event somebody sends, or the first thing wrong with it. Never throws. */
export const readEventDraft = (value: unknown): Read<EventDraft> => read(EventDraftSchema, value);

/**
 * An event out of the log, or the first thing wrong with it. Never throws. Hash the text as it was
 * stored and not this value: an older version reads back as the current one.
 */
export const readEvent = (value: unknown): Read<LogEvent> => read(EventSchema, value);
