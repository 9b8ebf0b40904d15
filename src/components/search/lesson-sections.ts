import { mdxToMdast } from 'satteri';
import type { LessonContext } from '../lesson/lesson-context.ts';
import { shownFact, shownFigure, shownLimit } from './shown-figures.ts';

/** A lesson cut at its headings, as text to be searched: its figures worked out, its parts gone. */
export type LessonSection = { readonly heading: string; readonly text: string };

type Node = {
  readonly type: string;
  readonly name?: string | null;
  readonly value?: unknown;
  readonly depth?: number;
  readonly attributes?: readonly Node[];
  readonly children?: readonly Node[];
};

/** Blocks end in a space, so that words of two never run together. */
const BLOCKS = new Set(['paragraph', 'heading', 'listItem', 'tableCell']);

export function lessonSections(body: string, context: LessonContext): readonly LessonSection[] {
  const tree = mdxToMdast(body) as unknown as Node;
  const sections: { heading: string; text: string }[] = [{ heading: '', text: '' }];
  for (const node of tree.children ?? []) {
    if (node.type === 'heading' && node.depth === 2) {
      sections.push({ heading: textOf(node, context).trim(), text: '' });
    } else {
      const last = sections[sections.length - 1];
      if (last !== undefined) last.text += ` ${textOf(node, context)}`;
    }
  }
  return sections
    .map(({ heading, text }) => ({ heading, text: text.replace(/\s+/g, ' ').trim() }))
    .filter(({ text }) => text !== '');
}

function textOf(node: Node, context: LessonContext): string {
  if (node.type === 'text' || node.type === 'inlineCode') return String(node.value ?? '');
  if (node.type.startsWith('mdxJsx')) {
    const shown = sayPart(node, context);
    if (shown !== null) return shown;
  }
  if (/^(mdxjsEsm|yaml|mdx\w*Expression)$/.test(node.type)) return '';
  const inner = (node.children ?? []).map((child) => textOf(child, context)).join('');
  return BLOCKS.has(node.type) ? `${inner} ` : inner;
}

/** What a part prints in the sentence, or null when its text is what stands between its ends. */
function sayPart(node: Node, context: LessonContext): string | null {
  const attribute = (name: string): string =>
    String(node.attributes?.find((one) => one.name === name)?.value ?? '');
  if (node.name === 'Figure') return shownFigure(attribute('of'), context, attribute('bench'));
  if (node.name === 'Limit') return shownLimit(attribute('id'), context);
  return node.name === 'Fact' ? shownFact(attribute('id'), context) : null;
}
