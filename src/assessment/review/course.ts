import { type Answer, questionKey } from './answers.ts';

/** A lesson as far as its place in the course goes. */
export type CourseLesson = {
  readonly id: string;
  /** ids of the lessons to do first */
  readonly after: readonly string[];
  readonly who: 'trainee' | 'trainer' | 'employer';
  /** ids of its questions */
  readonly asks: readonly string[];
  /** ids of its bench tasks */
  readonly tasks: readonly string[];
};

/** What somebody has done so far. */
export type Learnt = {
  readonly answers: readonly Answer[];
  /** bench tasks opened or handed in */
  readonly tasks: readonly string[];
};

export type LessonProgress = {
  /** questions answered right at least once */
  readonly right: number;
  readonly asked: number;
  /** bench tasks not opened yet */
  readonly tasksLeft: readonly string[];
  /** every question right once, and every bench task opened */
  readonly isDone: boolean;
  readonly isBegun: boolean;
  /** lessons to do first that are not done yet */
  readonly waitsFor: readonly string[];
  /** the one to go on with */
  readonly isNext: boolean;
};

/** The answers to questions that are asked in these lessons today: others have nothing to be due. */
export function answersInCourse(
  lessons: readonly Pick<CourseLesson, 'id' | 'asks'>[],
  answers: readonly Answer[],
): Answer[] {
  const asked = new Set(
    lessons.flatMap(({ id, asks }) =>
      asks.map((question) => questionKey({ lesson: id, question })),
    ),
  );
  return answers.filter((answer) => asked.has(questionKey(answer)));
}

type Counted = Omit<LessonProgress, 'waitsFor' | 'isNext'>;

function countLesson(
  lesson: CourseLesson,
  right: ReadonlySet<string>,
  opened: ReadonlySet<string>,
): Counted {
  const rightHere = lesson.asks.filter((question) =>
    right.has(questionKey({ lesson: lesson.id, question })),
  ).length;
  const tasksLeft = lesson.tasks.filter((task) => !opened.has(task));
  return {
    right: rightHere,
    asked: lesson.asks.length,
    tasksLeft,
    isDone: rightHere === lesson.asks.length && tasksLeft.length === 0 && lesson.asks.length > 0,
    isBegun: rightHere > 0,
  };
}

/**
 * How far somebody is, lesson by lesson, in course order. Next is the first of the trainees' lessons that is
 * not done and waits for none. A lesson to do first that is no longer in the course is waited for by nobody.
 */
export function readCourse(
  lessons: readonly CourseLesson[],
  learnt: Learnt,
): ReadonlyMap<string, LessonProgress> {
  const right = new Set(learnt.answers.filter((one) => one.right).map(questionKey));
  const opened = new Set(learnt.tasks);
  const counted = new Map(lessons.map((one) => [one.id, countLesson(one, right, opened)]));
  const waiting = (lesson: CourseLesson): readonly string[] =>
    lesson.after.filter((id) => counted.get(id)?.isDone === false);
  const next = lessons.find(
    (one) => one.who === 'trainee' && !counted.get(one.id)?.isDone && waiting(one).length === 0,
  );
  return new Map(
    lessons.map((one) => [
      one.id,
      {
        ...(counted.get(one.id) as Counted),
        waitsFor: waiting(one),
        isNext: one.id === next?.id,
      },
    ]),
  );
}
