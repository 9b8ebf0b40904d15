import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { breakTitle, drawCourse, layOutCourse } from '../../src/drawing/course/index.ts';

const lesson = (id: string, ...after: string[]) => ({ id, after });
const idsIn = (rows: ReturnType<typeof layOutCourse>['rows']) =>
  rows.map((row) => row.map(({ kind, id }) => (kind === 'way' ? `(${id})` : id)));

/** Courses in which a lesson follows earlier ones only, handed over in any order. */
const courses = fc
  .array(fc.array(fc.nat(), { maxLength: 3 }), { minLength: 1, maxLength: 18 })
  .chain((picks) => {
    const lessons = picks.map((pick, i) =>
      lesson(`l${i}`, ...new Set(i === 0 ? [] : pick.map((n) => `l${n % i}`))),
    );
    return fc.shuffledSubarray(lessons, { minLength: lessons.length });
  });

describe('the map of the course', () => {
  it('puts a lesson below those it follows, and leaves out what follows from the rest', () => {
    const { rows, lines } = layOutCourse([
      lesson('a'),
      lesson('b', 'a'),
      lesson('c', 'a', 'b'),
      lesson('d', 'b', 'gone'),
    ]);
    expect(idsIn(rows)).toEqual([['a'], ['b'], ['c', 'd']]);
    expect(lines).toEqual([
      { row: 0, from: 0, to: 0 },
      { row: 1, from: 0, to: 0 },
      { row: 1, from: 0, to: 1 },
    ]);
  });

  it('leads a long line past the rows between', () => {
    const { rows } = layOutCourse([
      lesson('a'),
      lesson('x'),
      lesson('b', 'a'),
      lesson('c', 'b', 'x'),
    ]);
    expect(idsIn(rows)).toEqual([['a', 'x'], ['b', '(x)'], ['c']]);
  });

  it('says which lessons wait for each other', () => {
    expect(() => layOutCourse([lesson('a', 'b'), lesson('b', 'a')])).toThrow(
      'The lessons wait for each other: a, then b, then a.',
    );
  });

  it('shows every lesson once, four on a row at most, below all it follows, each on a line from them', () => {
    fc.assert(
      fc.property(courses, (course) => {
        const { rows, lines } = layOutCourse(course);
        const shown = rows.map((row) => row.filter(({ kind }) => kind === 'lesson'));
        expect(
          shown
            .flat()
            .map(({ id }) => id)
            .sort(),
        ).toEqual(course.map(({ id }) => id).sort());
        for (const row of shown) expect(row.length).toBeLessThanOrEqual(4);
        const rowOf = new Map(shown.flatMap((row, i) => row.map(({ id }) => [id, i] as const)));
        // walking the lines up from a lesson meets every lesson it follows, and no other it does not
        const above = (row: number, at: number): Set<string> =>
          lines
            .filter((line) => line.row === row - 1 && line.to === at)
            .reduce((met, { from }) => {
              const slot = rows[row - 1]?.[from];
              if (slot?.kind === 'lesson') met.add(slot.id);
              for (const one of above(row - 1, from)) met.add(one);
              return met;
            }, new Set<string>());
        const earlierThan = (id: string): Set<string> =>
          (course.find((one) => one.id === id)?.after ?? []).reduce((met, one) => {
            met.add(one);
            for (const earlier of earlierThan(one)) met.add(earlier);
            return met;
          }, new Set<string>());
        rows.forEach((row, r) => {
          row.forEach(({ kind, id }, i) => {
            if (kind === 'way') return;
            expect(above(r, i)).toEqual(earlierThan(id));
            for (const one of earlierThan(id)) expect(rowOf.get(one)).toBeLessThan(r);
          });
        });
      }),
      { numRuns: 60 },
    );
  });
});

describe('the drawing of it', () => {
  const drawn = (id: string, title: string, ...after: string[]) => ({
    ...lesson(id, ...after),
    number: 1,
    title,
    href: `/lessons/${id}`,
  });

  it('has a board and its link for each lesson, none of them on the way of the keyboard', () => {
    const svg = drawCourse([drawn('a', 'One'), drawn('b', 'Two & <three>', 'a')]);
    expect(svg.match(/data-stop-of="/g)).toHaveLength(2);
    expect(svg.match(/tabindex="-1"/g)).toHaveLength(2);
    expect(svg).toContain('href="/lessons/b"');
    expect(svg).toContain('Two &amp; &lt;three&gt;');
    expect(svg).toContain('aria-hidden="true"');
    expect(svg).not.toMatch(/style=|NaN|undefined/);
  });

  it('is a whole drawing without lessons', () => {
    expect(drawCourse([])).toMatch(/^<svg [^>]*viewBox="0 0 [\d.]+ [\d.]+"/);
  });

  it('breaks titles at words, into three lines at most', () => {
    expect(breakTitle('Riving knife and guard')).toEqual(['Riving knife and', 'guard']);
    const long = breakTitle(
      'What the law, the maker and the workshop each ask of you and why they differ',
    );
    expect(long).toHaveLength(3);
    expect(long.at(-1)).toMatch(/ …$/);
  });
});
