import { inflateSync } from 'node:zlib';
import jsQR from 'jsqr';
import { getDocument, VerbosityLevel } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A piece of the structure tree as an independent reader gives it, with the text that stands in it. */
export type Piece = {
  readonly role: string;
  readonly alt: string | null;
  readonly lang: string | null;
  readonly text: string;
  readonly children: readonly Piece[];
};

export type ReadPage = {
  readonly width: number;
  readonly height: number;
  readonly tree: readonly Piece[];
  /** text that is in no tagged piece and in no artifact */
  readonly loose: string;
  /** text that is marked as no part of the content: the head and the foot of the page */
  readonly aside: string;
};

export type ReadPdf = {
  readonly title: string;
  readonly language: string;
  readonly version: string;
  readonly isMarked: boolean;
  readonly pages: readonly ReadPage[];
};

type Node = {
  readonly role?: string;
  readonly type?: string;
  readonly id?: string;
  readonly alt?: string;
  readonly lang?: string;
  readonly children?: readonly Node[];
};

const isHere = ({ children = [], type }: Node): boolean =>
  type === 'content' || children.some(isHere);

function pieceOf(node: Node, texts: ReadonlyMap<string, string>): Piece {
  // a piece that goes over many pages is named on each, with the parts that stand on others left empty
  const all = (node.children ?? []).filter(isHere);
  return {
    role: node.role ?? '',
    alt: node.alt ?? null,
    lang: node.lang ?? null,
    text: all
      .map(({ id = '', type }) => (type === 'content' ? (texts.get(id) ?? '') : ''))
      .join('')
      .trim(),
    children: all.filter(({ type }) => type !== 'content').map((child) => pieceOf(child, texts)),
  };
}

const ASIDE = 'no part of the content';

/** What a reader of another maker finds in a PDF: its language, its title, its tags and their text. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const loading = getDocument({ data: bytes.slice(), verbosity: VerbosityLevel.ERRORS });
  const doc = await loading.promise;
  const info = (await doc.getMetadata()).info as Record<string, string>;
  const marked = await doc.getMarkInfo();
  const pages: ReadPage[] = [];
  for (let number = 1; number <= doc.numPages; number++) {
    const page = await doc.getPage(number);
    const { items } = await page.getTextContent({ includeMarkedContent: true });
    const texts = new Map<string, string>();
    const open: string[] = [];
    let loose = '';
    for (const item of items) {
      if ('str' in item) {
        const inside = open.at(-1);
        if (inside === undefined) loose += item.str;
        else texts.set(inside, (texts.get(inside) ?? '') + item.str + (item.hasEOL ? ' ' : ''));
      } else if (item.type === 'endMarkedContent') open.pop();
      else open.push(item.id ?? ASIDE);
    }
    const tree = (await page.getStructTree()) as Node | null;
    const { height, width } = page.getViewport({ scale: 1 });
    const pieces = tree === null ? [] : pieceOf(tree, texts).children;
    const aside = texts.get(ASIDE) ?? '';
    pages.push({ width, height, loose: loose.trim(), aside, tree: pieces });
  }
  await loading.destroy();
  return {
    title: info.Title ?? '',
    language: info.Language ?? '',
    version: info.PDFFormatVersion ?? '',
    isMarked: (marked as unknown as ReadonlyMap<string, boolean> | null)?.get('Marked') === true,
    pages,
  };
}

/** Every piece of some pages, each before those inside it. */
export const piecesOf = (pieces: readonly Piece[]): Piece[] =>
  pieces.flatMap((piece) => [piece, ...piecesOf(piece.children)]);

export const textOf = ({ children, text }: Piece): string =>
  [text, ...children.map(textOf)].join(' ').trim();

/** The operators that draw each page, unpacked, in the order of the pages (ISO 32000-1, 7.7.3 and 7.8). */
export function drawingOf(bytes: Uint8Array): string[] {
  const raw = Buffer.from(bytes).toString('latin1');
  const objects = new Map<string, string>();
  for (const [, id = '', body = ''] of raw.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)) {
    objects.set(id, body);
  }
  const kids = /\/Type \/Pages[\s\S]*?\/Kids \[([^\]]*)\]/.exec(raw)?.[1] ?? '';
  return [...kids.matchAll(/(\d+) 0 R/g)].map(([, page = '']) => {
    const content = /\/Contents (\d+) 0 R/.exec(objects.get(page) ?? '')?.[1] ?? '';
    const stream = /stream\n([\s\S]*)\nendstream/.exec(objects.get(content) ?? '')?.[1] ?? '';
    return inflateSync(Buffer.from(stream, 'latin1')).toString('latin1');
  });
}

type Square = readonly [x: number, y: number, width: number, height: number];

/** Pixels to the side of the smallest square, and white squares round the code. */
const SCALE = 4;
const QUIET = 4;

/** The words in a code that is nothing but squares, or null when it cannot be read. */
function decode(squares: readonly Square[]): string | null {
  const left = Math.min(...squares.map(([x]) => x));
  const top = Math.min(...squares.map(([, y]) => y));
  const unit = Math.min(...squares.map(([, , , height]) => height));
  const wide = Math.max(...squares.map(([x, , width]) => x + width)) - left;
  const side = (Math.round(wide / unit) + 2 * QUIET) * SCALE;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  const at = (length: number) => Math.round((length / unit + QUIET) * SCALE);
  for (const [x, y, width, height] of squares) {
    for (let row = at(y - top); row < at(y - top + height); row++) {
      for (let column = at(x - left); column < at(x - left + width); column++) {
        pixels.fill(0, (row * side + column) * 4, (row * side + column) * 4 + 3);
      }
    }
  }
  return jsQR(pixels, side, side)?.data ?? null;
}

/** What each code on a page says, read from the squares that its tagged figure draws. */
export const codesOf = (drawing: string): (string | null)[] =>
  [...drawing.matchAll(/\/Figure <<[^>]*>> BDC([\s\S]*?)EMC/g)].map(([, inside = '']) =>
    decode(
      [...inside.matchAll(/(-?[\d.]+) (-?[\d.]+) (-?[\d.]+) (-?[\d.]+) re\b/g)].map(
        ([, ...numbers]) => numbers.map(Number) as unknown as Square,
      ),
    ),
  );
