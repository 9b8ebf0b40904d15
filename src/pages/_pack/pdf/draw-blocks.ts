import { encode } from 'uqr';
import { type Block, type Code, type Words, wordsOf } from '../blocks/block.ts';
import { drawTable } from './draw-table.ts';
import { drawLines, langOf, leading, makeRoom } from './lines.ts';
import { INK, MARGIN, QUIET, type Sheet, type Style } from './page.ts';
import { type Tag, tag } from './tag.ts';

const HEADINGS: Readonly<Record<1 | 2 | 3, Style>> = {
  1: { size: 18, weight: 'bold' },
  2: { size: 13.5, weight: 'bold' },
  3: { size: 11.5, weight: 'bold' },
};
const BODY: Style = { size: 10, weight: 'regular' };
const STYLES = {
  plain: BODY,
  strong: { size: 10.5, weight: 'bold' },
  quiet: { size: 9, weight: 'regular', colour: QUIET },
} as const satisfies Record<string, Style>;

const GAP = 7;
/** Side of a code in points, with its quiet zone: 33 mm, which a phone reads from paper at arm's length. */
const CODE_SIDE = 94;

/** Points that must be left below a heading, so that it never stands alone at the foot of a page. */
const below = (level: 1 | 2 | 3, next: Block | undefined): number => {
  if (level === 3) return 2 * CODE_SIDE;
  return next?.kind === 'heading' && next.level === 3 ? 2 * CODE_SIDE + 50 : 60;
};

function drawHeading(
  sheet: Sheet,
  parent: Tag,
  { level, words }: Extract<Block, { kind: 'heading' }>,
  next: Block | undefined,
): void {
  const { doc } = sheet;
  const style = HEADINGS[level];
  const text = wordsOf(words);
  const lines = sheet.fold(text, style, sheet.width());
  sheet.y += level === 3 ? 8 : 10;
  makeRoom(sheet, lines.length * leading(style) + below(level, next));
  if (level === 1) {
    doc.outline.addItem(text);
    sheet.section = text;
    // a page that begins with a heading needs no other one above it
    if (sheet.y < MARGIN.top + 12) sheet.sections[sheet.sections.length - 1] = '';
  }
  parent.add(tag(doc, `H${level}`, langOf(words), () => drawLines(sheet, lines, style)));
  sheet.y += 4;
}

function drawNotice(sheet: Sheet, parent: Tag, words: Words): void {
  const style = STYLES.strong;
  const lines = sheet.fold(wordsOf(words), style, sheet.width() - 24);
  const height = lines.length * leading(style) + 14;
  makeRoom(sheet, height);
  const { doc, left, y } = sheet;
  sheet.aside('Layout', () => doc.lineWidth(1.5).rect(left, y, sheet.width(), height).stroke(INK));
  sheet.y += 7;
  parent.add(tag(doc, 'P', langOf(words), () => drawLines(sheet, lines, style, left + 12)));
  sheet.y = y + height + GAP;
}

function drawList(sheet: Sheet, parent: Tag, items: readonly Words[]): void {
  const { doc, left } = sheet;
  const list = tag(doc, 'L');
  parent.add(list);
  for (const words of items) {
    const lines = sheet.fold(wordsOf(words), BODY, sheet.width() - 14);
    makeRoom(sheet, leading(BODY));
    const item = tag(doc, 'LI');
    list.add(item);
    item.add(tag(doc, 'Lbl', {}, () => sheet.draw('•', BODY, left, sheet.y)));
    item.add(tag(doc, 'LBody', langOf(words), () => drawLines(sheet, lines, BODY, left + 14)));
    item.end();
    sheet.y += 2;
  }
  list.end();
  sheet.y += GAP - 2;
}

/** The code as squares, dark on white with its quiet zone, each row's neighbours drawn as one. */
function drawCode(sheet: Sheet, parent: Tag, { address, alt }: Code): void {
  const { doc } = sheet;
  const { data, size } = encode(address, { ecc: 'M', border: 4 });
  const module = CODE_SIDE / size;
  const left = sheet.left + sheet.width() - CODE_SIDE;
  const top = sheet.y;
  const draw = () => {
    for (const [row, line] of data.entries()) {
      for (let from = 0; from < size; from++) {
        if (line[from] !== true) continue;
        let to = from;
        while (line[to + 1] === true) to += 1;
        doc.rect(left + from * module, top + row * module, (to - from + 1) * module, module);
        from = to;
      }
    }
    doc.fill('#000000');
  };
  parent.add(
    tag(doc, 'Figure', { alt, bbox: [left, top, left + CODE_SIDE, top + CODE_SIDE] }, draw),
  );
}

function drawPhoto(sheet: Sheet, parent: Tag, jpeg: Uint8Array, alt: string): void {
  const { doc, left } = sheet;
  const box: [number, number] = [Math.min(sheet.width(), 300), 200];
  const style = STYLES.quiet;
  makeRoom(sheet, box[1] + leading(style) + GAP);
  const top = sheet.y;
  const bbox = [left, top, left + box[0], top + box[1]] as const;
  parent.add(
    tag(doc, 'Figure', { alt, bbox }, () => doc.image(Buffer.from(jpeg), left, top, { fit: box })),
  );
  sheet.y += box[1] + 4;
  const lines = sheet.fold(alt, style, sheet.width());
  parent.add(tag(doc, 'Caption', {}, () => drawLines(sheet, lines, style)));
  sheet.y += GAP;
}

/**
 * Writes one block where the sheet stands, as a tagged piece of its parent.
 * @param next what follows it, which a heading keeps to
 */
export function drawBlock(sheet: Sheet, parent: Tag, block: Block, next?: Block): void {
  const { doc } = sheet;
  switch (block.kind) {
    case 'page':
      sheet.begin(block.turned);
      return;
    case 'heading':
      drawHeading(sheet, parent, block, next);
      return;
    case 'notice':
      drawNotice(sheet, parent, block.words);
      return;
    case 'list':
      drawList(sheet, parent, block.items);
      return;
    case 'photo':
      drawPhoto(sheet, parent, block.jpeg, block.alt);
      return;
    case 'text': {
      const style = STYLES[block.weight ?? 'plain'];
      const lines = sheet.fold(wordsOf(block.words), style, sheet.width());
      parent.add(tag(doc, 'P', langOf(block.words), () => drawLines(sheet, lines, style)));
      sheet.y += GAP;
      return;
    }
    case 'facts': {
      if (block.code === undefined) {
        drawTable(sheet, parent, block);
        return;
      }
      makeRoom(sheet, CODE_SIDE + 8);
      const underCode = sheet.y + CODE_SIDE + 6;
      const page = doc.page;
      drawCode(sheet, parent, block.code);
      drawTable(sheet, parent, block, CODE_SIDE + 14);
      // the facts are mostly longer than the code beside them
      if (doc.page === page) sheet.y = Math.max(sheet.y, underCode);
      return;
    }
    default:
      drawTable(sheet, parent, block);
  }
}
