/** A lesson on the map: what it follows decides where it stands. */
export type MapLesson = { readonly id: string; readonly after: readonly string[] };

/** A place on a row: a lesson, or the way past this row of a line that is longer than one row. */
export type Slot = { readonly kind: 'lesson' | 'way'; readonly id: string };

export type CourseLayout = {
  /** from the beginning of the course to its end, each from left to right */
  readonly rows: readonly (readonly Slot[])[];
  /** lines from a row to the next, by place on the row */
  readonly lines: readonly { readonly row: number; readonly from: number; readonly to: number }[];
};

/** Lessons beside each other on one row, at most: more would be too small to read. */
const WIDEST_ROW = 4;

/** Every lesson that must come before, however far back. @throws when a lesson comes before itself */
function findBefore(lessons: readonly MapLesson[]): Map<string, Set<string>> {
  const byId = new Map(lessons.map((one) => [one.id, one]));
  const found = new Map<string, Set<string>>();
  const visit = (id: string, way: readonly string[]): Set<string> => {
    if (way.includes(id)) {
      throw new Error(`The lessons wait for each other: ${[...way, id].join(', then ')}.`);
    }
    const known = found.get(id);
    if (known !== undefined) return known;
    const before = new Set<string>();
    for (const earlier of byId.get(id)?.after ?? []) {
      if (!byId.has(earlier)) continue;
      before.add(earlier);
      for (const one of visit(earlier, [...way, id])) before.add(one);
    }
    found.set(id, before);
    return before;
  };
  for (const { id } of lessons) visit(id, []);
  return found;
}

/** What comes straight before a lesson: nothing that comes before something else it follows. */
const straightBefore = (id: string, before: ReadonlyMap<string, ReadonlySet<string>>): string[] => {
  const all = [...(before.get(id) ?? [])];
  return all.filter((one) => !all.some((other) => before.get(other)?.has(one)));
};

/** The row of each lesson: below all it follows, on the first row with room. */
function chooseRows(
  lessons: readonly MapLesson[],
  before: ReadonlyMap<string, ReadonlySet<string>>,
): Map<string, number> {
  const rows = new Map<string, number>();
  const filled: number[] = [];
  const size = (id: string): number => before.get(id)?.size ?? 0;
  // a lesson has fewer before it than any that follows it, so those come first
  for (const { id } of [...lessons].sort((a, b) => size(a.id) - size(b.id))) {
    const above = [...(before.get(id) ?? [])].map((one) => rows.get(one) ?? 0);
    let row = Math.max(-1, ...above) + 1;
    while ((filled[row] ?? 0) >= WIDEST_ROW) row += 1;
    filled[row] = (filled[row] ?? 0) + 1;
    rows.set(id, row);
  }
  return rows;
}

/** Sorts a row by where its slots come from, so that few lines cross. */
function sortRow(row: Slot[], above: readonly Slot[], sources: (slot: Slot) => readonly string[]) {
  const place = new Map(above.map(({ id }, i) => [id, i - (above.length - 1) / 2]));
  const middle = (slot: Slot): number => {
    const places = sources(slot).flatMap((id) => place.get(id) ?? []);
    return places.length === 0 ? 0 : places.reduce((sum, one) => sum + one, 0) / places.length;
  };
  return row
    .map((slot, i) => ({ slot, at: middle(slot), i }))
    .sort((a, b) => a.at - b.at || a.i - b.i)
    .map(({ slot }) => slot);
}

/**
 * Rows of lessons with lines between them, for lessons in course order. A lesson named in `after` that is
 * not among them is left out. @throws when lessons wait for each other
 */
export function layOutCourse(lessons: readonly MapLesson[]): CourseLayout {
  const before = findBefore(lessons);
  const rowOf = chooseRows(lessons, before);
  const straight = new Map(lessons.map(({ id }) => [id, straightBefore(id, before)]));
  const count = Math.max(-1, ...rowOf.values()) + 1;
  const rows: Slot[][] = Array.from({ length: count }, (_, row) =>
    lessons
      .filter(({ id }) => rowOf.get(id) === row)
      .map(({ id }): Slot => ({ kind: 'lesson', id })),
  );
  // a line past a row takes a narrow slot there, one for all lines from the same lesson
  for (const { id } of lessons) {
    for (const source of straight.get(id) ?? []) {
      for (let row = (rowOf.get(source) ?? 0) + 1; row < (rowOf.get(id) ?? 0); row += 1) {
        const isThere = rows[row]?.some((slot) => slot.id === source);
        if (!isThere) rows[row]?.push({ kind: 'way', id: source });
      }
    }
  }
  const sources = ({ kind, id }: Slot) => (kind === 'way' ? [id] : (straight.get(id) ?? []));
  for (let row = 1; row < count; row += 1) {
    rows[row] = sortRow(rows[row] as Slot[], rows[row - 1] as Slot[], sources);
  }
  const lines = rows.slice(1).flatMap((row, above) =>
    row.flatMap((slot, to) =>
      sources(slot).map((id) => ({
        row: above,
        from: (rows[above] as Slot[]).findIndex((one) => one.id === id),
        to,
      })),
    ),
  );
  return { rows, lines };
}
