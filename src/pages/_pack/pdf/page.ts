import PDFDocument from 'pdfkit';
import type { Paper } from '../blocks/block.ts';
import { FONT_NAMES, type FontName, type Run, readFont, runsOf, type Weight } from './fonts.ts';

/** Points: 1/72 inch. */
export const MARGIN = { side: 48, top: 62, foot: 58 } as const;
const SIZES = { a4: [595.28, 841.89], letter: [612, 792] } as const;
export const INK = '#14181d';
export const QUIET = '#474f58';
export const RULE = '#8a929b';

export type Style = { readonly size: number; readonly weight: Weight; readonly colour?: string };

export type Sheet = {
  readonly doc: PDFKit.PDFDocument;
  /** whom or what the pages from here on are about */
  section: string;
  /** the same of each page, for its head: a loose page says whose it is */
  readonly sections: string[];
  /** where the next thing goes, points from the top */
  y: number;
  readonly left: number;
  readonly width: () => number;
  readonly bottom: () => number;
  readonly begin: (turned: 'upright' | 'on-its-side') => void;
  /** begins a new page of the same kind, also in the middle of a tagged piece */
  readonly turn: () => void;
  readonly measure: (text: string, style: Style) => number;
  /** lines of at most `width` points; words that are longer are cut */
  readonly fold: (text: string, style: Style, width: number) => string[];
  readonly draw: (text: string, style: Style, x: number, y: number) => void;
  /** draws something that is no part of the content */
  readonly aside: (kind: 'Layout' | 'Pagination', draw: () => void) => void;
};

type Font = { hasGlyphForCodePoint: (code: number) => boolean };

export type SheetOptions = {
  readonly paper: Paper;
  readonly language: string;
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  /** the date that stands in the file, so that the same content makes the same bytes */
  readonly made: Date;
};

/** An empty tagged document with its fonts, and what is needed to write on it. */
export function openSheet({ author, language, made, paper, subject, title }: SheetOptions): Sheet {
  const doc = new PDFDocument({
    // the types know only the archive forms
    subset: 'PDF/UA' as 'PDF/A-1',
    pdfVersion: '1.7',
    tagged: true,
    lang: language,
    displayTitle: true,
    autoFirstPage: false,
    bufferPages: true,
    // none of the fonts that a reader would have to have itself
    font: null as unknown as string,
    info: {
      Title: title,
      Author: author,
      Subject: subject,
      Creator: 'Signed to Saw',
      Producer: 'Signed to Saw',
      CreationDate: made,
      ModDate: made,
    },
  });
  const letters = new Map<FontName, Font>();
  for (const name of FONT_NAMES) {
    doc.registerFont(name, readFont(name));
    doc.font(name);
    letters.set(name, (doc as unknown as { _font: { font: Font } })._font.font);
  }
  const known = new Map<string, Run[]>();
  const runs = (text: string, weight: Weight): Run[] => {
    const key = `${weight} ${text}`;
    const found =
      known.get(key) ??
      runsOf(text, weight, (font, code) => letters.get(font)?.hasGlyphForCodePoint(code) ?? false);
    if (known.size < 20_000) known.set(key, found);
    return found;
  };
  const widths = new Map<string, number>();
  const measure = (text: string, { size, weight }: Style): number => {
    const key = `${weight} ${text}`;
    let width = widths.get(key);
    if (width === undefined) {
      width = runs(text, weight).reduce(
        (sum, run) => sum + doc.font(run.font).fontSize(100).widthOfString(run.text),
        0,
      );
      if (widths.size < 20_000) widths.set(key, width);
    }
    return (width * size) / 100;
  };
  const cut = (word: string, style: Style, width: number): string[] => {
    const pieces = [''];
    for (const letter of word) {
      const last = pieces.at(-1) ?? '';
      if (last === '' || measure(last + letter, style) <= width) {
        pieces[pieces.length - 1] = last + letter;
        continue;
      }
      // a path is cut behind its last mark, so that a name in it can be read in one piece
      const mark = Math.max(last.lastIndexOf('/'), last.lastIndexOf('-'));
      const end = mark > last.length / 3 ? mark + 1 : last.length;
      pieces.splice(-1, 1, last.slice(0, end), last.slice(end) + letter);
    }
    return pieces;
  };
  const fold = (text: string, style: Style, width: number): string[] => {
    const space = measure(' ', style);
    const lines: string[] = [];
    let line = '';
    let used = 0;
    for (const word of text.split(/\s+/)) {
      const needs = measure(word, style);
      if (line !== '' && used + space + needs <= width) {
        line += ` ${word}`;
        used += space + needs;
        continue;
      }
      if (line !== '') lines.push(line);
      const pieces = needs > width ? cut(word, style, width) : [word];
      lines.push(...pieces.slice(0, -1));
      line = pieces.at(-1) ?? '';
      used = measure(line, style);
    }
    return [...lines, line];
  };
  const pageOptions = (turned: 'upright' | 'on-its-side') => ({
    size: [...SIZES[paper]] as [number, number],
    layout: turned === 'upright' ? ('portrait' as const) : ('landscape' as const),
    margin: 0,
  });
  let turnedNow: 'upright' | 'on-its-side' = 'upright';
  const sheet: Sheet = {
    doc,
    section: '',
    sections: [],
    y: 0,
    left: MARGIN.side,
    width: () => doc.page.width - 2 * MARGIN.side,
    bottom: () => doc.page.height - MARGIN.foot,
    begin: (turned) => {
      turnedNow = turned;
      doc.addPage(pageOptions(turned));
      sheet.section = '';
      sheet.sections.push('');
      sheet.y = MARGIN.top;
    },
    turn: () => {
      const next = doc as unknown as { continueOnNewPage: (options: object) => void };
      next.continueOnNewPage(pageOptions(turnedNow));
      sheet.sections.push(sheet.section);
      sheet.y = MARGIN.top;
    },
    measure,
    fold,
    draw: (text, { colour = INK, size, weight }, x, y) => {
      let at = x;
      for (const run of runs(text, weight)) {
        doc.font(run.font).fontSize(size).fillColor(colour);
        doc.text(run.text, at, y, { lineBreak: false });
        at += (doc.fontSize(100).widthOfString(run.text) * size) / 100;
      }
    },
    aside: (type, draw) => {
      doc.markContent('Artifact', { type });
      draw();
      doc.endMarkedContent();
    },
  };
  return sheet;
}

/** The bytes of a document once it is closed. */
export function finish(doc: PDFKit.PDFDocument): Promise<Buffer> {
  const parts: Buffer[] = [];
  return new Promise((done, fail) => {
    doc.on('data', (part: Buffer) => parts.push(part));
    doc.on('end', () => done(Buffer.concat(parts)));
    doc.on('error', fail);
    doc.end();
  });
}
