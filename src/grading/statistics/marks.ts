import { requireGrid } from './arguments.ts';
import { type Interval, wilsonInterval } from './interval.ts';
import { correlate, sumOf } from './moments.ts';

/** 1 right, 0 wrong, null not asked: fresh benches do not carry every fault. */
export type Mark = 0 | 1 | null;

/** One row for each attempt, one column for each item, every row as long as the first. */
export type Marks = readonly (readonly Mark[])[];

export type ItemFigures = {
  /** attempts in which the item was asked */
  readonly asked: number;
  readonly right: number;
  /** share right, 0 to 1: high is easy; null when never asked */
  readonly difficulty: number | null;
  /** 95 % Wilson interval of the difficulty */
  readonly interval: Interval;
  /** item-rest correlation, -1 to 1; null when undefined */
  readonly discrimination: number | null;
};

function checkMarks(marks: Marks): number {
  const items = requireGrid('marks', marks, { rows: 1, columns: 1 });
  marks.forEach((row, person) => {
    const item = row.findIndex((mark) => mark !== 0 && mark !== 1 && mark !== null);
    if (item >= 0) {
      throw new RangeError(
        `marks must be 0, 1 or null; row ${person + 1}, column ${item + 1} is ${row[item]}.`,
      );
    }
  });
  return items;
}

/** The rows in which every item was asked: what a reliability figure may be computed from. */
export function completeRows(marks: Marks): readonly (readonly (0 | 1)[])[] {
  checkMarks(marks);
  return marks.filter((row): row is readonly (0 | 1)[] => row.every((mark) => mark !== null));
}

/**
 * Correlation of an item (column from 0) with the share right among the other items asked of the
 * same person: the item is left out of its own yardstick, or every item would look better than it
 * is. With nothing left out it is the point-biserial "item-rest" correlation. Null when fewer than
 * two people count, or when the item or the rest has no spread.
 */
export function itemDiscrimination(marks: Marks, item: number): number | null {
  const own: number[] = [];
  const rest: number[] = [];
  for (const row of marks) {
    const mark = row[item];
    const others = row.filter((other, i): other is 0 | 1 => i !== item && other !== null);
    if (mark === null || mark === undefined || others.length === 0) continue;
    own.push(mark);
    rest.push(sumOf(others) / others.length);
  }
  return own.length < 2 ? null : correlate(own, rest);
}

/**
 * Difficulty and discrimination of every item, in the order of the columns. Classical test
 * theory; compare Crocker and Algina 1986, ch. 14 (from memory).
 */
export function analyseItems(marks: Marks): readonly ItemFigures[] {
  const items = checkMarks(marks);
  return Array.from({ length: items }, (_, item) => {
    const column = marks.map((row) => row[item]);
    const asked = column.filter((mark) => mark !== null).length;
    const right = column.filter((mark) => mark === 1).length;
    return {
      asked,
      right,
      difficulty: asked === 0 ? null : right / asked,
      interval: wilsonInterval(right, asked),
      discrimination: itemDiscrimination(marks, item),
    };
  });
}
