import { type Block, type Words, wordsOf } from './blocks/block.ts';

/** Columns of a line: what a plain text window shows without folding. */
const WIDTH = 96;

function fold(text: string, indent: string): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && indent.length + line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].map((one) => `${indent}${one}`).join('\n');
}

const underlined = (text: string, level: number): string =>
  `${text}\n${(level === 1 ? '=' : '-').repeat(Math.min(WIDTH, [...text].length))}`;

const item = (words: Words): string => `- ${fold(wordsOf(words), '  ').trimStart()}`;

function writeBlock(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return underlined(wordsOf(block.words), block.level);
    case 'text':
      return fold(wordsOf(block.words), '');
    case 'notice':
      return fold(`!! ${wordsOf(block.words)}`, '');
    case 'list':
      return block.items.map(item).join('\n');
    case 'facts': {
      const rows = block.rows.map(([name, words]) => `${name}:\n${fold(wordsOf(words), '    ')}`);
      const code = block.code === undefined ? [] : [block.code.address];
      return [...rows, ...code].join('\n');
    }
    case 'table':
      return [
        underlined(block.caption, 2),
        ...block.rows.map((cells) =>
          cells
            .map((cell, place) =>
              place === 0 ? item(cell) : fold(`${block.head[place]}: ${wordsOf(cell)}`, '      '),
            )
            .join('\n'),
        ),
      ].join('\n');
    case 'photo':
      return `[${block.alt}]`;
    default:
      return '';
  }
}

/** The same blocks as plain text, with lines of at most 96 characters where words allow it. */
export const writeText = (blocks: readonly Block[]): string =>
  `${blocks
    .map(writeBlock)
    .filter((text) => text !== '')
    .join('\n\n')}\n`;
