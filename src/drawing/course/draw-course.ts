import { escapeText, node, shape } from '../markup.ts';
import { WORD_ADVANCE } from '../text.ts';
import { layOutCourse, type MapLesson, type Slot } from './lay-out-course.ts';

/** A lesson as it is drawn: a board with its number, its name and where it leads. */
export type DrawnLesson = MapLesson & {
  readonly number: number;
  readonly title: string;
  readonly href: string;
};

const BOARD = { width: 236, height: 92 };
/** Room of a line that passes a row. */
const WAY = 20;
const GAP = { across: 28, down: 46 };
const MARGIN = 10;
/** Where a board is marked and cut, from its left end; and how wide the cut is. */
const CUT = { at: 206, kerf: 8, over: 5 };
const TITLE = { size: 15, x: 46, y: 27, line: 18, most: 3, room: 152 };

/** A title in lines short enough for the board; what does not fit ends in dots. */
export function breakTitle(title: string): string[] {
  const most = Math.floor(TITLE.room / (TITLE.size * WORD_ADVANCE));
  const lines: string[] = [];
  for (const word of title.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  if (lines.length <= TITLE.most) return lines;
  const kept = lines.slice(0, TITLE.most);
  return [...kept.slice(0, -1), `${kept.at(-1)} …`];
}

const text = (words: string, x: number, y: number, size: number, extra: object = {}): string =>
  node('text', { x, y, 'font-size': size, fill: 'currentColor', ...extra }, escapeText(words));

/** Marked with a pencil: the next. Cut half through: begun. Cut off: done. The page shows one. */
function drawStates(): string {
  const { at, kerf, over } = CUT;
  const { height } = BOARD;
  const [left, right] = [at - kerf / 2, at + kerf / 2];
  const mark =
    shape(`M${at} 0V${height}`, 'hidden') +
    shape(`M${at - 8} ${-over - 6}L${at} 0L${at + 8} ${-over - 6}`, 'outline');
  const half = shape(
    `M${left} ${height + over}V${height / 2}H${right}V${height + over}`,
    'outline',
    'paper',
  );
  const through =
    node('path', {
      class: 'course-kerf',
      d: `M${left} ${-over}H${right}V${height + over}H${left}Z`,
    }) + shape(`M${left} 0V${height}M${right} 0V${height}`, 'outline');
  return (
    node('g', { class: 'course-next' }, mark) +
    node('g', { class: 'course-begun' }, half) +
    node('g', { class: 'course-done' }, through)
  );
}

function drawBoard({ id, number, title, href }: DrawnLesson, x: number, y: number): string {
  const { width, height } = BOARD;
  const grain = [18, 33, 52, 70]
    .map((at, i) => `M${width - 3 - i * 4} ${at}h-${8 + i * 3}`)
    .join('');
  const name = breakTitle(title).map((line, i) =>
    text(line, TITLE.x, TITLE.y + i * TITLE.line, TITLE.size, { class: 'word course-title' }),
  );
  return node(
    'a',
    {
      class: 'course-board',
      href,
      tabindex: '-1',
      'data-stop-of': id,
      transform: `translate(${x} ${y})`,
    },
    shape(`M0 0H${width}V${height}H0Z`, 'outline', 'timber'),
    shape(grain, 'grain'),
    drawStates(),
    node('circle', {
      class: 'course-balloon',
      cx: 23,
      cy: 23,
      r: 14,
      'vector-effect': 'non-scaling-stroke',
    }),
    text(String(number), 23, 28, 14, { class: 'course-number', 'text-anchor': 'middle' }),
    ...name,
    node(
      'text',
      {
        class: 'word course-state',
        x: TITLE.x,
        y: height - 9,
        'font-size': 14,
        'data-state-word': '',
      },
      ' ',
    ),
  );
}

const widthOf = ({ kind }: Slot): number => (kind === 'lesson' ? BOARD.width : WAY);

/** Middles of the slots of a row that is centred on the sheet. */
function middlesOf(row: readonly Slot[], sheet: number): number[] {
  const whole = row.reduce((sum, slot) => sum + widthOf(slot), GAP.across * (row.length - 1));
  let x = (sheet - whole) / 2;
  return row.map((slot) => {
    const middle = x + widthOf(slot) / 2;
    x += widthOf(slot) + GAP.across;
    return middle;
  });
}

/**
 * The course as a drawing: boards in rows, a line from each to those that build on it. The browser marks how
 * far somebody is by `data-state` on a board: next, begun, done, or nothing. It is a picture of a list that
 * stands beside it, so it is hidden from screen readers.
 */
export function drawCourse(lessons: readonly DrawnLesson[]): string {
  const { rows, lines } = layOutCourse(lessons);
  const byId = new Map(lessons.map((one) => [one.id, one]));
  const wide = (row: readonly Slot[]) =>
    row.reduce((sum, slot) => sum + widthOf(slot) + GAP.across, -GAP.across);
  const sheet = Math.max(BOARD.width, ...rows.map(wide)) + 2 * MARGIN;
  const middles = rows.map((row) => middlesOf(row, sheet));
  const top = (row: number): number => MARGIN + 12 + row * (BOARD.height + GAP.down);
  const middle = (row: number, at: number): number => middles[row]?.[at] ?? 0;
  const drawnLines = lines.map(({ row, from, to }) => {
    const [x, end] = [middle(row, from), middle(row + 1, to)];
    const [y, down] = [top(row) + BOARD.height, top(row + 1)];
    const half = (y + down) / 2;
    return shape(`M${x} ${y}C${x} ${half} ${end} ${half} ${end} ${down}`, 'thin');
  });
  const slots = rows.flatMap((row, r) =>
    row.map((slot, i) => {
      const x = middle(r, i);
      const lesson = byId.get(slot.id);
      return slot.kind === 'way' || lesson === undefined
        ? shape(`M${x} ${top(r)}v${BOARD.height}`, 'thin')
        : drawBoard(lesson, x - BOARD.width / 2, top(r));
    }),
  );
  const height = top(Math.max(1, rows.length)) - GAP.down + MARGIN;
  return node(
    'svg',
    {
      class: 'course-map',
      viewBox: `0 0 ${sheet} ${height}`,
      width: sheet,
      height,
      'aria-hidden': 'true',
    },
    ...drawnLines,
    ...slots,
  );
}
