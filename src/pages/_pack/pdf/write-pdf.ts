import type { Speaker } from '../../../words/say.ts';
import { sayDocument } from '../blocks/document.ts';
import type { PackContent } from '../content.ts';
import { drawBlock } from './draw-blocks.ts';
import { finish, MARGIN, openSheet, QUIET, RULE, type Sheet, type Style } from './page.ts';
import { tagDocument } from './tag.ts';

const SMALL: Style = { size: 8, weight: 'regular', colour: QUIET };

/** The head and foot of every page: whose it is, as of when, what it is not, and which page of how many. */
function drawFrames(sheet: Sheet, content: PackContent, say: Speaker): void {
  const { doc } = sheet;
  const { count, start } = doc.bufferedPageRange();
  const day = say.day(content.asOf);
  for (let page = 0; page < count; page++) {
    doc.switchToPage(start + page);
    const number = say('pack.doc.page', { page: page + 1, pages: count });
    const running = say('pack.doc.running', { organisation: content.organisation, day });
    const foot = content.invented
      ? `${say('proof.demo.word')}. ${say('proof.kind')}`
      : say('proof.kind');
    const width = doc.page.width - 2 * MARGIN.side;
    const last = doc.page.height - MARGIN.foot + 22;
    sheet.aside('Pagination', () => {
      const [section = ''] = sheet.fold(sheet.sections[page] ?? '', SMALL, width / 2);
      const aside = sheet.measure(section, SMALL);
      const [line = ''] = sheet.fold(running, SMALL, width - aside - 12);
      sheet.draw(line, SMALL, MARGIN.side, 34);
      if (section !== '') sheet.draw(section, SMALL, MARGIN.side + width - aside, 34);
      sheet.draw(foot, SMALL, MARGIN.side, last);
      sheet.draw(number, SMALL, MARGIN.side + width - sheet.measure(number, SMALL), last);
      for (const y of [48, last - 6]) {
        doc
          .lineWidth(0.5)
          .moveTo(MARGIN.side, y)
          .lineTo(MARGIN.side + width, y)
          .stroke(RULE);
      }
    });
  }
}

/**
 * The printable document: tagged, with its fonts inside, and the same bytes from the same content.
 * Between two people other work of the process gets its turn.
 */
export async function writePdf(content: PackContent, say: Speaker): Promise<Uint8Array> {
  const { choice, made, organisation } = content;
  const day = say.day(content.asOf);
  const sheet = openSheet({
    paper: choice.paper,
    language: choice.language,
    title: say('pack.doc.running', { organisation, day }),
    author: organisation,
    subject: say('proof.kind'),
    made: new Date(made),
  });
  const { doc } = sheet;
  const root = tagDocument(doc);
  sheet.begin('upright');
  const blocks = sayDocument(content, say);
  for (const [place, block] of blocks.entries()) {
    if (block.kind === 'page') await new Promise((next) => setImmediate(next));
    drawBlock(sheet, root, block, blocks[place + 1]);
  }
  root.end();
  drawFrames(sheet, content, say);
  return new Uint8Array(await finish(doc));
}
