import { createHash, createPublicKey, verify } from 'node:crypto';
import { readFileSync } from 'node:fs';

/**
 * The log read and checked without any code of the site: the tree as RFC 6962 section 2.1 defines it, the
 * head as a C2SP signed note, signatures by the system's own library.
 */
export type RawLog = {
  readonly rows: readonly { readonly seq: number; readonly id: string; readonly json: string }[];
  readonly nodes: readonly {
    readonly level: number;
    readonly position: number;
    readonly hash: string;
  }[];
  readonly heads: readonly {
    readonly size: number;
    readonly root: string;
    readonly note: string;
  }[];
};

const hash = (...parts: (Buffer | string)[]): Buffer => {
  const sum = createHash('sha256');
  for (const part of parts) sum.update(part);
  return sum.digest();
};
const LEAF = Buffer.from([0]);
const NODE = Buffer.from([1]);

/** MTH of RFC 6962 2.1, with every subtree of a power of two of leaves told on the way. */
function rootOf(
  leaves: readonly Buffer[],
  tell: (level: number, at: number, hash: Buffer) => void,
) {
  const build = (from: number, count: number): Buffer => {
    if (count === 0) return hash('');
    let made: Buffer;
    if (count === 1) made = leaves[from] as Buffer;
    else {
      // the largest power of two smaller than count
      const left = 2 ** Math.floor(Math.log2(count - 1));
      made = hash(NODE, build(from, left), build(from + left, count - left));
    }
    const level = Math.log2(count);
    if (Number.isInteger(level)) tell(level, from / count, made);
    return made;
  };
  return build(0, leaves.length);
}

/** Whether the note's one signature is the site key's over its text. */
function isSigned(note: string, keyFile: string): boolean {
  const { key } = JSON.parse(readFileSync(keyFile, 'utf8')) as { key: { x: string } };
  const publicKey = createPublicKey({
    key: { kty: 'OKP', crv: 'Ed25519', x: key.x },
    format: 'jwk',
  });
  const blank = note.lastIndexOf('\n\n');
  const encoded =
    note
      .slice(blank + 2)
      .trim()
      .split(' ')
      .at(-1) ?? '';
  const signature = Buffer.from(encoded, 'base64').subarray(4);
  return verify(null, Buffer.from(note.slice(0, blank + 1)), publicKey, signature);
}

/** Everything that is wrong with the log, one sentence each; empty when it is whole. */
export function findWrong(log: RawLog, keyFile: string): string[] {
  const wrong: string[] = [];
  for (const [index, { seq, id, json }] of log.rows.entries()) {
    if (seq !== index) return [`record ${index} is missing or stands twice: found ${seq}`];
    if ((JSON.parse(json) as { id: string }).id !== id) wrong.push(`record ${seq} has another id`);
  }
  const ids = new Set(log.rows.map(({ id }) => id));
  if (ids.size !== log.rows.length) wrong.push(`${log.rows.length - ids.size} ids stand twice`);
  const told = new Map<string, string>();
  const root = rootOf(
    log.rows.map(({ json }) => hash(LEAF, json)),
    (level, at, sum) => told.set(`${level}/${at}`, sum.toString('hex')),
  );
  const [head] = log.heads;
  if (head === undefined || log.heads.length !== 1) return [...wrong, 'there is not one head'];
  if (head.size !== log.rows.length) wrong.push(`the head is of ${head.size}, not ${ids.size}`);
  if (head.root !== root.toString('hex')) wrong.push('the head has another root');
  if (!head.note.split('\n').includes(root.toString('base64'))) {
    wrong.push('the note has another root');
  }
  if (!isSigned(head.note, keyFile)) wrong.push('the note is not signed by the site');
  const stored = new Map(log.nodes.map((node) => [`${node.level}/${node.position}`, node.hash]));
  for (const [place, sum] of told) {
    if (stored.get(place) !== sum) wrong.push(`the hash at ${place} is missing or another`);
  }
  if (stored.size !== told.size) wrong.push(`${stored.size - told.size} hashes too many`);
  return wrong;
}
