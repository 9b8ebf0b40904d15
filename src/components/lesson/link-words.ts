import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { MdastPluginDefinition, PluginFactoryContext } from 'satteri';
import { parse } from 'yaml';
import { isLanguage, type Language } from '../../words/index.ts';
import { makeWordFinder, type NamedWord, type WordFinder } from './find-words.ts';
import { GlossaryFileSchema } from './lesson-schema.ts';

/** As much of a node of a lesson's tree as the linking looks at. */
type Node = {
  readonly type: string;
  readonly name?: string | null;
  readonly value?: unknown;
  readonly attributes?: readonly Node[];
  readonly children?: readonly Node[];
};

/** Where a word is never linked: it is a name there, or a link already. */
const CLOSED = new Set(['heading', 'link', 'linkReference', 'inlineCode', 'code']);

const isTerm = ({ type, name }: Node) => type === 'mdxJsxTextElement' && name === 'Term';

function* termsIn(node: Node): Generator<string> {
  if (isTerm(node) || (node.type === 'mdxJsxFlowElement' && node.name === 'Term')) {
    const id = node.attributes?.find((attribute) => attribute.name === 'id')?.value;
    if (typeof id === 'string') yield id;
  }
  for (const child of node.children ?? []) yield* termsIn(child);
}

function* textsIn(node: Node): Generator<Node> {
  if (CLOSED.has(node.type) || node.name === 'Term' || node.name === 'a') return;
  if (node.type === 'text') yield node;
  for (const child of node.children ?? []) yield* textsIn(child);
}

const text = (value: string): Node => ({ type: 'text', value });
const term = (id: string, said: string): Node => ({
  type: 'mdxJsxTextElement',
  name: 'Term',
  attributes: [{ type: 'mdxJsxAttribute', name: 'id', value: id }],
  children: [text(said)],
});

/** A text with the words not yet linked made into links; null when there is none in it. */
function linkText(value: string, find: WordFinder, linked: Set<string>): Node[] | null {
  const pieces: Node[] = [];
  let done = 0;
  for (const { id, from, to } of find(value)) {
    if (linked.has(id)) continue;
    linked.add(id);
    if (from > done) pieces.push(text(value.slice(done, from)));
    pieces.push(term(id, value.slice(from, to)));
    done = to;
  }
  if (done === 0) return null;
  if (done < value.length) pieces.push(text(value.slice(done)));
  return pieces;
}

/**
 * Links the first occurrence of each trade word of a lesson to the glossary, the longest word first.
 * A word the writer linked by hand is left to that link.
 * @param wordsOf the trade words of a language; the lesson's is the folder it lies in
 */
export function linkTradeWords(
  wordsOf: (language: Language, lesson: URL) => readonly NamedWord[] = readGlossary,
): (context: Pick<PluginFactoryContext, 'fileURL'>) => MdastPluginDefinition | null {
  return ({ fileURL }) => {
    const language = fileURL && languageOfLesson(fileURL);
    if (fileURL === undefined || language === undefined) return null;
    return {
      name: 'link-trade-words',
      before(root, context) {
        const tree = root as unknown as Node;
        const linked = new Set(termsIn(tree));
        const words = wordsOf(language, fileURL).filter(({ link }) => link !== 'by hand');
        const find = makeWordFinder(words, language);
        for (const node of [...textsIn(tree)]) {
          const pieces = linkText(String(node.value ?? ''), find, linked);
          if (pieces !== null) context.replaceNode(node as never, pieces as never);
        }
      },
    };
  };
}

/** The language of a file of content/lessons; undefined for any other file. */
function languageOfLesson(url: URL): Language | undefined {
  const [, folder = ''] = /\/content\/lessons\/([a-z-]+)\/[^/]+\.mdx$/.exec(url.pathname) ?? [];
  return isLanguage(folder) ? folder : undefined;
}

/** The trade words as they are on disk now: the site's own loader cannot be asked while it is compiling. */
function readGlossary(language: Language, lesson: URL): readonly NamedWord[] {
  const folder = new URL(`../../glossary/${language}/`, lesson);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .flatMap((name) => {
      const file = readFileSync(new URL(name, folder), 'utf8');
      const { words } = GlossaryFileSchema.parse(parse(file));
      return Object.entries(words).map(([id, word]) => ({ id, ...word }));
    });
}
