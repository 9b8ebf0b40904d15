import { z } from 'zod';
import {
  BenchSchema,
  isMeasureId,
  MEASURES,
  type Measures,
  type MeasureUnit,
} from '../bench/index.ts';

/**
 * What a limit or a condition can speak of: a measure (`knife.gapMax`) or any field of the bench
 * file by its path (`job.cut`, `blade.condition.cracks`, `insert.gaps.0`). Fields are read off the
 * bench schema itself, so a slip in a content file is found when the file is read.
 */
export type SubjectKind = 'number' | 'yes/no' | 'word' | 'list' | 'part';

export type Subject = {
  readonly kind: SubjectKind;
  /** the words a field may hold; absent when any text will do */
  readonly words?: readonly string[];
  /** in a list: what each item is */
  readonly item?: Scope;
};

/** Where names are looked up: the whole bench, or one item of a list. */
export type Scope = {
  readonly find: (name: string) => Subject | null;
};

/** The parts of JSON Schema that the bench schema uses. */
type Node = {
  readonly type?: string;
  readonly enum?: readonly string[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly anyOf?: readonly Node[];
  readonly items?: Node | boolean;
  readonly prefixItems?: readonly Node[];
};

function stripNull(node: Node): Node {
  const inner = node.anyOf?.find((branch) => branch.type !== 'null');
  return inner ?? node;
}

function nodeWithin(node: Node, key: string): Node | null {
  const { properties, prefixItems } = stripNull(node);
  if (properties !== undefined && Object.hasOwn(properties, key)) return properties[key] ?? null;
  if (prefixItems !== undefined && /^\d$/.test(key)) return prefixItems[Number(key)] ?? null;
  return null;
}

function subjectOf(nullable: Node): Subject | null {
  const node = stripNull(nullable);
  if (node.enum !== undefined) return { kind: 'word', words: node.enum };
  switch (node.type) {
    case 'number':
    case 'integer':
      return { kind: 'number' };
    case 'boolean':
      return { kind: 'yes/no' };
    case 'string':
      return { kind: 'word' };
    case 'object':
      return { kind: 'part' };
    case 'array': {
      const { items } = node;
      return typeof items === 'object' ? { kind: 'list', item: scopeOf(items) } : { kind: 'list' };
    }
    default:
      return null;
  }
}

function findField(root: Node, path: string): Subject | null {
  let node: Node | null = root;
  for (const key of path.split('.')) {
    node = nodeWithin(node, key);
    if (node === null) return null;
  }
  return subjectOf(node);
}

const scopeOf = (root: Node): Scope => ({ find: (path) => findField(root, path) });

const KIND_OF_UNIT: Partial<Record<MeasureUnit, SubjectKind>> = {
  'yes/no': 'yes/no',
  word: 'word',
};

const benchRoot = z.toJSONSchema(BenchSchema, { io: 'input' }) as Node;

/** Names as seen from the whole bench: a measure id first, else a field. */
export const BENCH_SCOPE: Scope = {
  find: (name) => {
    const field = findField(benchRoot, name);
    if (!isMeasureId(name)) return field;
    const kind = KIND_OF_UNIT[MEASURES[name].unit] ?? 'number';
    return field?.kind === kind ? field : { kind };
  },
};

/**
 * Reads a subject's value from its root (the bench, or one item of a list); null when there is
 * none, as for a field of a part taken off.
 */
export type Reader = (root: unknown, measures: Measures) => unknown;

type Group = Readonly<Record<string, unknown>>;

/** One step down a path; null once there is nothing further. */
const step = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null ? ((value as Group)[key] ?? null) : null;

/**
 * A reader of a field of the root by its path. Most paths have up to three steps, and those are
 * written out: every limit is read for every bench.
 */
export function readField(path: string): Reader {
  const keys = path.split('.');
  const [first = '', second, third, ...rest] = keys;
  if (second === undefined) return (root) => step(root, first);
  if (third === undefined) return (root) => step(step(root, first), second);
  if (rest.length === 0) return (root) => step(step(step(root, first), second), third);
  return (root) => keys.reduce(step, root);
}

/** A reader of a measure, or of a field of the bench when no measure has that name. */
export function readSubject(name: string): Reader {
  if (isMeasureId(name)) return (_bench, measures) => measures[name];
  return readField(name);
}
