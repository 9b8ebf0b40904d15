import {
  appendLeaf,
  type Bytes,
  type Checkpoint,
  canonicalText,
  EMPTY_EDGE,
  edgeRoot,
  leafHash,
  openCheckpoint,
  sameBytes,
  toBase64,
  utf8,
} from '../check/index.ts';
import { type LogEntry, type LogEvent, readEvent } from '../events/index.ts';
import { followKeys, type KeyBook } from './follow-keys.ts';

export type AuditOptions = {
  /** signed checkpoints kept from any time, in any order */
  readonly checkpoints: readonly string[];
  /** keys whose checkpoints count */
  readonly publicKeys: readonly Bytes[];
  /** `hashes` reads the tree alone; `events` also reads every event and checks every sign-off */
  readonly depth: 'hashes' | 'events';
};

export type AuditReport = {
  readonly ok: boolean;
  /** events read */
  readonly size: number;
  /** root over them, base 64 */
  readonly root: string;
  /** the first event found wrong by itself, or null */
  readonly firstBad: { readonly index: number; readonly sentence: string } | null;
  /** one sentence each, in order of size */
  readonly checkpoints: readonly { readonly ok: boolean; readonly sentence: string }[];
};

type Line = AuditReport['checkpoints'][number];

const WHY = {
  malformed: 'A checkpoint given is not a signed note.',
  'unknown-signer': 'A checkpoint given is not signed by a key you trust.',
  'bad-signature': 'A checkpoint given is not what its signer signed.',
} as const;

async function openAll({ checkpoints, publicKeys }: AuditOptions) {
  const opened: Checkpoint[] = [];
  const lines: Line[] = [];
  for (const note of checkpoints) {
    const one = await openCheckpoint(note, publicKeys);
    if (one.ok) opened.push(one.checkpoint);
    else lines.push({ ok: false, sentence: WHY[one.why] });
  }
  return { opened: opened.sort((a, b) => a.size - b.size), lines };
}

function parseEvent(text: string): LogEvent | string {
  let value: unknown;
  try {
    value = JSON.parse(text);
    if (canonicalText(value) !== text) return 'It is not kept in canonical form.';
  } catch {
    return 'It is not JSON.';
  }
  const read = readEvent(value);
  return read.ok ? read.event : read.error.message;
}

/** Whether an event lies in its place with the hash it was entered with: what is wrong, or null. */
function findFaultInHash(entry: LogEntry, leaf: Bytes, index: number): string | null {
  if (entry.index !== index) return `It stands where event ${index} belongs.`;
  return sameBytes(leaf, entry.leafHash) ? null : 'It was altered after it was entered.';
}

/** What is wrong with what one event says, or null. */
async function findFaultInEvent(
  entry: LogEntry,
  seen: { readonly ids: Set<string>; readonly keys: KeyBook },
): Promise<string | null> {
  const event = parseEvent(entry.text);
  if (typeof event === 'string') return event;
  if (seen.ids.has(event.id)) return 'Its id was used before.';
  seen.ids.add(event.id);
  return followKeys(event, seen.keys);
}

function judgeCheckpoint(checkpoint: Checkpoint, root: Bytes, before: number): Line {
  const { size } = checkpoint;
  if (sameBytes(checkpoint.root, root)) {
    return {
      ok: true,
      sentence: `The first ${size} events are those of the checkpoint at ${size}.`,
    };
  }
  const range = before === 0 ? `the first ${size} events` : `the events ${before} to ${size - 1}`;
  return {
    ok: false,
    sentence: `The log is not the one of the checkpoint at ${size}: look in ${range}.`,
  };
}

/**
 * Reads a whole log in order and says whether it is the one its checkpoints sum up. An event
 * changed together with its stored hash is caught by the first checkpoint after it; the checkpoints
 * then bracket it, so keep many. Memory: one id per event at depth `events`, else constant.
 *
 * @param entries one by one, or some at a time, which is faster
 */
export async function auditLog(
  entries: AsyncIterable<LogEntry | readonly LogEntry[]>,
  options: AuditOptions,
): Promise<AuditReport> {
  const { lines, opened } = await openAll(options);
  const seen = { ids: new Set<string>(), keys: new Map() as KeyBook };
  let edge = EMPTY_EDGE;
  let firstBad: AuditReport['firstBad'] = null;
  let next = 0;
  let agreed = 0;
  const passCheckpoints = () => {
    for (; opened[next]?.size === edge.size; next++) {
      const line = judgeCheckpoint(opened[next] as Checkpoint, edgeRoot(edge), agreed);
      if (line.ok) agreed = edge.size;
      lines.push(line);
    }
  };
  passCheckpoints();
  for await (const some of entries) {
    // many at a time: waiting for each one costs as much as hashing it
    for (const entry of Array.isArray(some) ? (some as readonly LogEntry[]) : [some as LogEntry]) {
      const leaf = leafHash(utf8(entry.text));
      let sentence = findFaultInHash(entry, leaf, edge.size);
      if (sentence === null && options.depth === 'events') {
        sentence = await findFaultInEvent(entry, seen);
      }
      if (sentence !== null && firstBad === null) firstBad = { index: edge.size, sentence };
      edge = appendLeaf(edge, leaf).edge;
      passCheckpoints();
    }
  }
  for (; next < opened.length; next++) {
    const { size } = opened[next] as Checkpoint;
    lines.push({
      ok: false,
      sentence: `The log has ${edge.size} events, fewer than its checkpoint at ${size}.`,
    });
  }
  const ok = firstBad === null && lines.every((line) => line.ok);
  return { ok, size: edge.size, root: toBase64(edgeRoot(edge)), firstBad, checkpoints: lines };
}
