/**
 * Answers to lesson questions, as somebody gave them while learning. They are private, and they prove
 * nothing: no signature, pass mark or record rests on them.
 */
export type Answer = {
  /** made on the device that took the answer; the same answer arriving twice is one answer */
  readonly id: string;
  readonly lesson: string;
  readonly question: string;
  readonly right: boolean;
  /** ISO instant in UTC, by the clock of the device */
  readonly at: string;
};

/** The newest answers to one question that still count: older ones tell nothing more. */
export const NEWEST_KEPT = 12;

export const questionKey = ({ lesson, question }: Pick<Answer, 'lesson' | 'question'>): string =>
  `${lesson}/${question}`;

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Oldest first; where two devices say the same instant, by id, so that every device agrees. */
export const compareAnswers = (a: Answer, b: Answer): number =>
  Date.parse(a.at) - Date.parse(b.at) ||
  compareText(a.id, b.id) ||
  compareText(questionKey(a), questionKey(b)) ||
  compareText(a.at, b.at) ||
  Number(a.right) - Number(b.right);

/** Groups answers by question, each group oldest first. */
export function answersByQuestion(answers: Iterable<Answer>): Map<string, Answer[]> {
  const groups = new Map<string, Answer[]>();
  for (const answer of [...answers].sort(compareAnswers)) {
    const key = questionKey(answer);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [answer]);
    else group.push(answer);
  }
  return groups;
}

/** The newest answers to each question, and the first right one: a lesson once done stays done. */
function trimAnswers(answers: Iterable<Answer>): Answer[] {
  return [...answersByQuestion(answers).values()].flatMap((group) => {
    const firstRight = group.findIndex(({ right }) => right);
    return group.filter((_, i) => i >= group.length - NEWEST_KEPT || i === firstRight);
  });
}

/**
 * The answers of two devices as one list, oldest first. Which comes first, and how often, makes no
 * difference. Of two that claim one id the earlier stands.
 */
export function mergeAnswers(a: Iterable<Answer>, b: Iterable<Answer>): Answer[] {
  const byId = new Map<string, Answer>();
  for (const answer of [...a, ...b]) {
    const known = byId.get(answer.id);
    if (known === undefined || compareAnswers(answer, known) < 0) byId.set(answer.id, answer);
  }
  return trimAnswers(byId.values()).sort(compareAnswers);
}
