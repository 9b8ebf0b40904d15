import { readHead } from './course.ts';
import { type Flaw, listWords, problem } from './flaw.ts';
import type { LessonSource } from './lesson-source.ts';

/** Lessons of the course; each has a place of its own. */
const LESSONS = 15;

/** The order of the lessons, and what must be done before each. English decides; translations follow it. */
export function checkCourse(lessons: readonly LessonSource[]): readonly Flaw[] {
  const heads = lessons.map((lesson) => ({ lesson, head: readHead(lesson) }));
  const ids = new Set(lessons.map(({ id }) => id));
  const flaws: Flaw[] = [];
  const byOrder = Map.groupBy(heads, ({ head }) => head.order);
  for (const { lesson, head } of heads) {
    const say = (key: string, says: string) =>
      flaws.push(problem(lesson.file, lesson.head.lineOf([key]), says));
    const { order } = head;
    if (order === null || !Number.isInteger(order) || order < 1 || order > LESSONS)
      say('order', `order must be a whole number from 1 to ${LESSONS}.`);
    const others = (byOrder.get(order) ?? []).filter((other) => other.lesson.id !== lesson.id);
    if (others.length > 0)
      say(
        'order',
        `order ${order} is that of ${listWords(others.map((other) => other.lesson.id))} too.`,
      );
    for (const before of head.after) {
      if (!ids.has(before)) say('after', `after names ${before}, and there is no such lesson.`);
      const place = heads.find((other) => other.lesson.id === before)?.head.order ?? null;
      if (place !== null && order !== null && place > order)
        say(
          'after',
          `after names ${before}, which comes later in the course (${place} after ${order}).`,
        );
    }
    const circle = circleFrom(
      lesson.id,
      new Map(heads.map((one) => [one.lesson.id, one.head.after])),
    );
    if (circle !== null) say('after', `after goes round in a circle: ${circle.join(', ')}.`);
  }
  for (let order = 1; order <= LESSONS; order += 1) {
    if (!byOrder.has(order))
      flaws.push(
        problem(
          'content/lessons/en',
          1,
          `No lesson has order ${order}; each of 1 to ${LESSONS} is used once.`,
        ),
      );
  }
  return flaws;
}

/** The way from a lesson back to itself, or null. */
function circleFrom(
  id: string,
  after: ReadonlyMap<string, readonly string[]>,
): readonly string[] | null {
  const walk = (at: string, way: readonly string[]): readonly string[] | null => {
    for (const before of after.get(at) ?? []) {
      if (before === id) return [...way, before];
      if (way.includes(before)) continue;
      const found = walk(before, [...way, before]);
      if (found !== null) return found;
    }
    return null;
  };
  return walk(id, [id]);
}
