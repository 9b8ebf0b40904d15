import { z } from 'zod';
import { BenchSchema, isMeasureId, MEASURES, type MeasureUnit } from '../bench/index.ts';

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
