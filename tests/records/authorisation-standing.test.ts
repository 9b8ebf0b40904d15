import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  consistencyPath,
  type EventDraft,
  type LogEvent,
  readEvent,
  standingMarks,
  stoppedSignoffs,
  verifyConsistency,
} from '../../src/records/index.ts';
import { authorisationDrafts, BASIS_AT, LEAVE_AT } from './sample-authorisation.ts';
import { keepLog, sampleId, sampleStatementNow, seedKey } from './sample-log.ts';

const drafts = await authorisationDrafts(await seedKey(2));

const event = (kind: string, body: object, about: string | null = 'mira'): EventDraft =>
  ({
    id: sampleId(90),
    kind,
    version: 1,
    org: 'org-1',
    at: '2026-03-03T10:00:00.000Z',
    by: 'ruth',
    about,
    body,
  }) as EventDraft;

const leave = sampleId(61);
const miss = (people: readonly string[], bench = 'bench-1') =>
  event(
    'near-miss.reported',
    {
      bench,
      happenedAt: '2026-03-03T09:00:00.000Z',
      work: 'rip',
      people,
      hurt: 'nobody',
      what: 'The offcut came back.',
    },
    bench,
  );

/** What the lists say after these events were entered, as read back from a log. */
function marksAfter(more: readonly EventDraft[], before: readonly EventDraft[] = drafts) {
  const events = [...before, ...more].map((draft, index) => {
    const read = readEvent({ ...draft, received: '2026-03-03T10:00:05.000Z' });
    if (!read.ok) throw new Error(read.error.message);
    return { event: read.event as LogEvent, index };
  });
  return standingMarks(events);
}

describe('what the status lists say of leave to work', () => {
  it('is nothing while nothing happened', () => {
    expect(marksAfter([])).toEqual({ revocation: [], suspension: [] });
  });

  it('is rest after a near miss with that person at that bench, and after no other', () => {
    expect(marksAfter([miss(['mira'])]).suspension).toEqual([LEAVE_AT]);
    expect(marksAfter([miss(['tom'])]).suspension).toEqual([]);
    expect(marksAfter([miss(['mira'], 'bench-2')]).suspension).toEqual([]);
    const before = [...drafts.slice(0, LEAVE_AT), miss(['mira']), ...drafts.slice(LEAVE_AT)];
    expect(marksAfter([], before).suspension).toEqual([]);
  });

  it('is rest until it is refreshed, and only its own refresh lifts it', () => {
    const rest = event('authorisation.suspended', {
      authorisation: leave,
      cause: 'other',
      reason: 'Guard away for repair.',
    });
    const back = (authorisation: string) =>
      event('authorisation.refreshed', {
        authorisation,
        how: 'talked-through',
        signoff: null,
        note: 'Shown again.',
      });
    expect(marksAfter([rest]).suspension).toEqual([LEAVE_AT]);
    expect(marksAfter([rest, back(sampleId(99))]).suspension).toEqual([LEAVE_AT]);
    expect(marksAfter([rest, back(leave)]).suspension).toEqual([]);
    expect(marksAfter([rest, back(leave), miss(['mira'])]).suspension).toEqual([LEAVE_AT]);
  });

  it('is revoked when ended, and with a practical it rests on, which is marked too', () => {
    const end = event('authorisation.ended', { authorisation: leave, reason: 'Left.' });
    expect(marksAfter([end]).revocation).toEqual([LEAVE_AT]);
    const taken = event('practical.withdrawn', { signoff: sampleId(40), reason: 'Wrong bench.' });
    expect(marksAfter([taken]).revocation).toEqual([BASIS_AT[0], LEAVE_AT]);
  });
});

describe('a log whose past was changed (seed 9162)', () => {
  // RFC 6962 section 2.1.2: a consistency proof holds only when the old log begins the new one
  it('never proves itself consistent with a checkpoint kept before', () => {
    const size = drafts.length;
    const change = fc.record({
      kept: fc.integer({ min: 1, max: size }),
      at: fc.nat(),
      how: fc.constantFrom('delete', 'swap', 'rewrite', 'none'),
    });
    const seen = new Set<string>();
    fc.assert(
      fc.property(change, ({ at, how, kept }) => {
        const place = at % kept;
        const now = [...drafts];
        const [one] = now.splice(place, 1) as [EventDraft];
        if (how === 'none') now.splice(place, 0, one);
        if (how === 'swap') now.splice(place + 1, 0, one);
        if (how === 'rewrite') now.splice(place, 0, { ...one, at: '2026-03-03T10:00:01.000Z' });
        // enough comes after, so that the log is never shorter than what was kept
        now.push(miss(['tom']), { ...miss(['tom']), id: sampleId(91) });
        const after = keepLog(now);
        const nodes = (n: number) => keepLog(now.slice(0, n)).root;
        const lookup = ({ index, level }: { index: number; level: number }) =>
          keepLog(now.slice(index * 2 ** level, (index + 1) * 2 ** level)).root;
        const holds = verifyConsistency({
          first: kept,
          second: now.length,
          firstRoot: keepLog(drafts.slice(0, kept)).root,
          secondRoot: after.root,
          path: consistencyPath(kept, now.length, lookup),
        });
        const isOther = how !== 'none' && !(how === 'swap' && place === drafts.length - 1);
        seen.add(`${how} ${holds}`);
        expect(nodes(now.length)).toEqual(after.root);
        expect(holds).toBe(!isOther);
      }),
      { seed: 9162, numRuns: 150 },
    );
    expect([...seen].sort()).toContain('none true');
  });
});

describe('a sign-off whose practical was stopped in another unit', () => {
  const signed = (id: number, change: Parameters<typeof sampleStatementNow>[0] = {}): LogEvent => {
    const statement = sampleStatementNow({ signoff: sampleId(id), ...change });
    const body = { signoff: sampleId(id), statement, keyId: 'key', deviceSignature: 'signature' };
    const draft = { ...event('practical.signed', body), id: sampleId(id) };
    return draft as unknown as LogEvent;
  };
  const { criteria } = sampleStatementNow();
  const stop = signed(51, {
    decision: 'not-yet',
    criteria: [...criteria, { id: 'stop/reach', text: 'The work was stopped.', result: 'no' }],
  });
  const taken = event('practical.withdrawn', { signoff: sampleId(51), reason: 'Wrong person.' });

  it('is marked, whichever of the two reached the log first', () => {
    expect([...stoppedSignoffs([signed(50), stop])]).toEqual([sampleId(50)]);
    expect([...stoppedSignoffs([stop, signed(50)])]).toEqual([sampleId(50)]);
    const placed = [signed(50), stop].map((one, index) => ({ event: one, index }));
    expect(standingMarks(placed).revocation).toEqual([0]);
  });

  it('is not marked after a stop of another practical, or one that was taken back', () => {
    expect(stoppedSignoffs([signed(50, { practical: sampleId(42) }), stop]).size).toBe(0);
    expect(stoppedSignoffs([signed(50), stop, taken as unknown as LogEvent]).size).toBe(0);
  });
});
