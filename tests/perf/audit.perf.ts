import { createHash } from 'node:crypto';
import {
  auditLog,
  type EventDraft,
  type LogEntry,
  type LogEvent,
  leafHash,
  readEvent,
  toLogEntry,
  utf8,
} from '../../src/records/index.ts';

/** Events in the log that is audited; the brief of an audit is a million. */
const EVENTS = Number(process.env['AUDIT_EVENTS'] ?? 1_000_000);
const ROUNDS = 3;

/** One event of usual size, its id and seed changed from one to the next so that no two are alike. */
function makeText(): (index: number) => string {
  const draft: EventDraft = {
    id: '019cb323-e501-7101-8101-010101010101',
    kind: 'invitation.made',
    version: 1,
    org: 'org-1',
    at: '2026-03-03T10:00:00.000Z',
    by: 'ruth',
    about: null,
    body: { invitation: 'inv-1', role: 'trainee' },
  };
  const read = readEvent({ ...draft, received: '2026-03-03T10:00:05.000Z' });
  if (!read.ok) throw new Error(read.error.message);
  const { text } = toLogEntry(read.event as LogEvent, 0);
  const [before = '', after = ''] = text.split('010101010101');
  return (index) => `${before}${index.toString(16).padStart(12, '0')}${after}`;
}

function makeLog(count: number): LogEntry[] {
  const textAt = makeText();
  return Array.from({ length: count }, (_, index) => {
    const text = textAt(index);
    return { index, text, leafHash: leafHash(utf8(text)) };
  });
}

/** As a store reads it: a thousand rows at a time. */
async function* replay(entries: readonly LogEntry[]): AsyncGenerator<LogEntry[]> {
  for (let from = 0; from < entries.length; from += 1000) yield entries.slice(from, from + 1000);
}

const median = (figures: readonly number[]): number =>
  [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)] as number;

async function time(work: () => unknown): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

/** The least that has to be done: hash every event and every inner node once, by our own SHA-256. */
function hashOnly(entries: readonly LogEntry[]): void {
  for (const { text } of entries) leafHash(utf8(text));
  const node = new Uint8Array(64);
  for (let index = 1; index < entries.length; index++) leafHash(node);
}

/** The same by the system's own SHA-256, to see what the arithmetic in script costs. */
function hashBySystem(entries: readonly LogEntry[]): void {
  for (const { text } of entries) createHash('sha256').update(text).digest();
  const node = new Uint8Array(65);
  for (let index = 1; index < entries.length; index++) createHash('sha256').update(node).digest();
}

/** `npm run perf -- audit`: an audit of a whole log against the hashing in it, medians of three. */
export async function runAuditPerf(say: (line: string) => void): Promise<void> {
  const entries = makeLog(EVENTS);
  const figures: Record<'hash' | 'system' | 'hashes' | 'events', number[]> = {
    hash: [],
    system: [],
    hashes: [],
    events: [],
  };
  const audit = async (depth: 'hashes' | 'events') => {
    const options = { checkpoints: [], publicKeys: [], depth };
    const { ok } = await auditLog(replay(entries), options);
    if (!ok) throw new Error('the log made for this is not whole');
  };
  for (let round = 0; round < ROUNDS; round++) {
    figures.hash.push(await time(() => hashOnly(entries)));
    figures.hashes.push(await time(() => audit('hashes')));
    if (round === 0) {
      figures.system.push(await time(() => hashBySystem(entries)));
      figures.events.push(await time(() => audit('events')));
    }
  }
  const base = median(figures.hash);
  say(`${EVENTS} events of ${entries[0]?.text.length} bytes`);
  for (const [name, all] of Object.entries(figures)) {
    const ms = median(all);
    say(`${name}: ${(ms / 1000).toFixed(2)} s, ${(ms / base).toFixed(2)} times the hashing`);
  }
}
