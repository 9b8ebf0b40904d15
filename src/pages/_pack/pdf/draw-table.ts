import { type Block, type Words, wordsOf } from '../blocks/block.ts';
import { langOf, leading, makeRoom } from './lines.ts';
import { INK, QUIET, RULE, type Sheet, type Style } from './page.ts';
import { type Tag, tag } from './tag.ts';

const HEAD: Style = { size: 8.5, weight: 'bold', colour: QUIET };
const CELL: Style = { size: 9, weight: 'regular' };
const NAME: Style = { size: 9, weight: 'bold' };
const PAD = { x: 4, y: 3 } as const;

type Column = { readonly x: number; readonly width: number };
type Cell = { readonly words: Words; readonly style: Style; readonly lines: readonly string[] };

function columnsOf(sheet: Sheet, shares: readonly number[], width: number): Column[] {
  const all = shares.reduce((sum, share) => sum + share, 0);
  let x = sheet.left;
  return shares.map((share) => {
    const column = { x, width: (share / all) * width };
    x += column.width;
    return column;
  });
}

const cellOf = (sheet: Sheet, words: Words, style: Style, { width }: Column): Cell => ({
  words,
  style,
  lines: sheet.fold(wordsOf(words), style, width - 2 * PAD.x),
});

const heightOf = (cells: readonly Cell[]): number =>
  Math.max(...cells.map(({ lines, style }) => lines.length * leading(style))) + 2 * PAD.y;

function drawCell(sheet: Sheet, { lines, style }: Cell, { x }: Column, top: number): void {
  for (const [place, line] of lines.entries()) {
    sheet.draw(line, style, x + PAD.x, top + PAD.y + place * leading(style));
  }
}

function ruleAt(sheet: Sheet, y: number, width: number, kind: 'head' | 'row'): void {
  sheet.aside('Layout', () => {
    sheet.doc
      .lineWidth(kind === 'head' ? 1 : 0.5)
      .moveTo(sheet.left, y)
      .lineTo(sheet.left + width, y)
      .stroke(kind === 'head' ? INK : RULE);
  });
}

type TableBlock = Extract<Block, { kind: 'table' | 'facts' }>;

/**
 * A table, over as many pages as it takes; the head is written again at the top of each, for the eye alone.
 * Facts are a table of two columns without a head.
 * @param beside points to leave free at the end of each line, for what stands beside it on this page
 */
export function drawTable(sheet: Sheet, parent: Tag, block: TableBlock, beside = 0): void {
  const { doc } = sheet;
  const isFacts = block.kind === 'facts';
  const rows: readonly (readonly Words[])[] = block.rows;
  const shares = isFacts ? [1, 2.6] : (block.shares ?? block.head.map(() => 1));
  const first = block.kind === 'table' && block.names === 'sentence' ? CELL : NAME;
  const width = sheet.width() - beside;
  const columns = columnsOf(sheet, shares, width);
  const column = (place: number): Column => columns[place] as Column;
  const head = isFacts
    ? []
    : block.head.map((text, place) => cellOf(sheet, text, HEAD, column(place)));
  const table = tag(doc, 'Table', { title: block.caption });
  parent.add(table);

  if (!isFacts) {
    const caption = sheet.fold(block.caption, NAME, width);
    const opening = rows[0]?.map((words, place) => cellOf(sheet, words, NAME, column(place))) ?? [];
    const needs = caption.length * leading(NAME) + heightOf(head) + heightOf([...opening, ...head]);
    makeRoom(sheet, needs + 4);
    table.add(
      tag(doc, 'Caption', {}, () => {
        for (const line of caption) {
          sheet.draw(line, NAME, sheet.left, sheet.y);
          sheet.y += leading(NAME);
        }
      }),
    );
    const top = sheet.y;
    const thead = tag(doc, 'THead');
    table.add(thead);
    const row = tag(doc, 'TR');
    thead.add(row);
    for (const [place, cell] of head.entries()) {
      row.add(tag(doc, 'TH', { scope: 'Column' }, () => drawCell(sheet, cell, column(place), top)));
    }
    row.end();
    thead.end();
    sheet.y = top + heightOf(head);
    ruleAt(sheet, sheet.y, width, 'head');
  }

  const body = tag(doc, 'TBody');
  table.add(body);
  for (const words of rows) {
    const cells = words.map((one, place) =>
      cellOf(sheet, one, place === 0 ? first : CELL, column(place)),
    );
    const height = heightOf(cells);
    if (sheet.y + height > sheet.bottom()) {
      sheet.turn();
      if (head.length > 0) {
        const top = sheet.y;
        sheet.aside('Layout', () => {
          for (const [place, cell] of head.entries()) drawCell(sheet, cell, column(place), top);
        });
        sheet.y += heightOf(head);
        ruleAt(sheet, sheet.y, width, 'head');
      }
    }
    const top = sheet.y;
    const row = tag(doc, 'TR');
    body.add(row);
    for (const [place, cell] of cells.entries()) {
      const draw = () => drawCell(sheet, cell, column(place), top);
      const scope = { ...langOf(cell.words), scope: 'Row' } as const;
      row.add(place === 0 ? tag(doc, 'TH', scope, draw) : tag(doc, 'TD', langOf(cell.words), draw));
    }
    row.end();
    sheet.y = top + height;
    ruleAt(sheet, sheet.y, width, 'row');
  }
  body.end();
  table.end();
  sheet.y += 8;
}
