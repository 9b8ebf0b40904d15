import { mdxToMdast } from 'satteri';
import { parse } from 'yaml';
import { LessonSchema } from '../components/lesson/lesson-schema.ts';
import { type Flaw, problem } from './flaw.ts';
import { readWithSchema, readYamlSource, type YamlSource } from './yaml-source.ts';

/** A part a writer put in a lesson, such as a drawing, and what was written in its brackets. */
export type Part = {
  readonly name: string;
  readonly line: number;
  readonly attributes: Readonly<Record<string, unknown>>;
  /** the text between its two ends, a caption */
  readonly text: string;
};

/** An attribute that lists names; empty for anything else. */
export const texts = (value: unknown): string[] => (Array.isArray(value) ? value.map(String) : []);

/** One paragraph, heading, list item or caption. Parts within it stand as `FIGURE` or are gone. */
export type Block = {
  readonly kind: 'prose' | 'item' | 'heading';
  /** of a heading, from 1 */
  readonly depth: number;
  readonly text: string;
  /** the line of the file a place in `text` stands on */
  readonly lineAt: (index: number) => number;
  readonly parts: readonly Part[];
};

export type Link = { readonly to: string; readonly line: number };

/** A lesson as it was written. */
export type LessonSource = {
  readonly id: string;
  readonly language: string;
  readonly file: string;
  readonly head: YamlSource;
  readonly parts: readonly Part[];
  readonly blocks: readonly Block[];
  readonly links: readonly Link[];
  readonly flaws: readonly Flaw[];
};

/** Stands in a text where a part will show a figure with its unit. */
export const FIGURE = '\uFFFC';
const SHOWN = new Set(['Figure', 'Limit', 'Fact']);

type Node = {
  readonly type: string;
  readonly value?: unknown;
  readonly name?: string | null;
  readonly url?: string;
  readonly depth?: number;
  readonly attributes?: readonly Node[];
  readonly children?: readonly Node[];
  readonly position?: { readonly start: { readonly line: number } };
};

const lineOf = (node: Node): number => node.position?.start.line ?? 1;
const isPart = (node: Node) => node.type.startsWith('mdxJsx');

/** The text of a block, with the line each piece of it stands on. */
class Words {
  text = '';
  readonly parts: Part[] = [];
  readonly #starts: { at: number; line: number }[] = [];

  add(text: string, line: number): void {
    this.#starts.push({ at: this.text.length, line });
    this.text += text;
  }

  lineAt = (index: number): number => {
    const start = this.#starts.findLast(({ at }) => at <= index) ?? { at: 0, line: 1 };
    return start.line + this.text.slice(start.at, index).split('\n').length - 1;
  };
}

/** Reads a lesson file with the parser the pages are built with, and never throws. */
export function readLessonSource(
  where: { readonly id: string; readonly language: string; readonly file: string },
  text: string,
): LessonSource {
  const [, front = ''] = /^---\r?\n([\s\S]*?)\r?\n---/.exec(text) ?? [];
  const head = readYamlSource(where.file, front, 2);
  const parts: Part[] = [];
  const blocks: Block[] = [];
  const links: Link[] = [];
  const flaws: Flaw[] = [...readWithSchema(head, LessonSchema).flaws];
  const lesson = { ...where, head, parts, blocks, links, flaws };
  const say = (node: Node, says: string) => flaws.push(problem(where.file, lineOf(node), says));
  if (front === '') {
    flaws.push(
      problem(where.file, 1, 'The lesson must begin with its head between two lines ---.'),
    );
  }

  const partOf = (node: Node): Part => {
    const part = {
      name: node.name ?? '',
      line: lineOf(node),
      attributes: readAttributes(node, (says) => say(node, says)),
      text: plainText(node).trim(),
    };
    parts.push(part);
    return part;
  };

  const fill = (node: Node, words: Words): void => {
    if (node.type === 'text' || node.type === 'inlineCode') {
      words.add(String(node.value ?? ''), lineOf(node));
      return;
    }
    if (node.type === 'break') words.add('\n', lineOf(node));
    if (node.type === 'link') links.push({ to: node.url ?? '', line: lineOf(node) });
    if (isPart(node)) {
      const part = partOf(node);
      words.parts.push(part);
      if (SHOWN.has(part.name)) words.add(FIGURE, part.line);
    }
    if (isCode(node)) refuseCode(node);
    for (const child of node.children ?? []) fill(child, words);
  };

  const refuseCode = (node: Node) => {
    const value = String(node.value ?? '');
    if (node.type === 'mdxjsEsm') say(node, 'A lesson imports nothing: every part is at hand.');
    else if (!/^\s*\/\*[\s\S]*\*\/\s*$/.test(value))
      say(node, `{${value}} is code; write a figure as <Figure of="..." />.`);
  };

  const walk = (node: Node, kind: 'prose' | 'item'): void => {
    if (isCode(node)) refuseCode(node);
    else if (node.type === 'paragraph' || node.type === 'heading' || node.type === 'tableCell') {
      const words = new Words();
      fill(node, words);
      blocks.push({
        kind: node.type === 'heading' ? 'heading' : kind,
        depth: node.depth ?? 0,
        text: words.text,
        lineAt: words.lineAt,
        parts: words.parts,
      });
    } else {
      if (isPart(node)) partOf(node);
      const inner = node.type === 'listItem' ? 'item' : kind;
      for (const child of node.children ?? []) walk(child, inner);
    }
  };

  try {
    walk(mdxToMdast(text) as unknown as Node, 'prose');
  } catch (error) {
    const message = String((error as Error).message).split('\n')[0] ?? '';
    const line = Number(/(?:line\s*|\(|^)(\d+)(?::\d+)?/i.exec(message)?.[1] ?? 1);
    flaws.push(problem(where.file, line, `The lesson cannot be read: ${message}`));
  }
  return lesson;
}

const isCode = (node: Node) =>
  ['mdxjsEsm', 'mdxFlowExpression', 'mdxTextExpression'].includes(node.type);

const plainText = (node: Node): string =>
  node.type === 'text' || node.type === 'inlineCode'
    ? String(node.value ?? '')
    : (node.children ?? []).map(plainText).join('');

/** `{...}` holds lists, records, numbers and texts; YAML in one line reads the same ones, and runs nothing. */
function readAttributes(
  node: Node,
  say: (says: string) => void,
): Readonly<Record<string, unknown>> {
  const read: Record<string, unknown> = {};
  for (const { name, value } of node.attributes ?? []) {
    if (typeof name !== 'string') {
      say(`${node.name}: {...} within the brackets is code, which a lesson does not hold.`);
    } else if (typeof value === 'string' || value === null || value === undefined) {
      read[name] = value ?? true;
    } else {
      try {
        read[name] = parse(String((value as Node).value));
      } catch {
        say(`${node.name}: ${name} must be a list, a record, a number or a text.`);
      }
    }
  }
  return read;
}
