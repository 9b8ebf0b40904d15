import { CONFIDENCE, type Confidence } from '../../assessment/index.ts';
import type { GradedSitting } from './graded.ts';

export type SureRow = {
  readonly word: string;
  /** chance of being right that goes with the word, 0 to 100 */
  readonly stated: number;
  readonly given: number;
  readonly right: number;
};

const WORDS: Readonly<Record<Confidence, string>> = {
  certain: 'Certain',
  'fairly-sure': 'Fairly sure',
  guess: 'A guess',
};

/** Findings by how sure one was, and how many of them were right. */
export function sureRows({ form, work, grade }: GradedSitting): SureRow[] {
  const found = new Set(
    grade.tasks.flatMap(({ lines }) =>
      lines
        .filter(({ what }) => what === 'found')
        .map((line) => `${line.values['part']} ${line.about}`),
    ),
  );
  const findings = form.tasks.flatMap(({ id }) => {
    const answer = work[id];
    return answer?.kind === 'find' ? answer.findings : [];
  });
  // named twice, the later word stands, as in the grade
  const standing = [...new Map(findings.map((one) => [`${one.part} ${one.fault}`, one]))];
  return (Object.keys(WORDS) as Confidence[]).map((word) => {
    const given = standing.filter(([, one]) => one.confidence === word);
    return {
      word: WORDS[word],
      stated: Math.round(CONFIDENCE[word] * 100),
      given: given.length,
      right: given.filter(([key]) => found.has(key)).length,
    };
  });
}

/** Findings under which a share says next to nothing. */
const FEW = 8;
/** Share that confidence and result may differ by and still be said to agree. */
const AGREE = 0.1;

/** How well the confidence was judged, in a sentence; null where nothing was named. */
export function sayCalibration({ grade: { calibration } }: GradedSitting): string | null {
  if (calibration === null) return null;
  const { overconfidence, count } = calibration;
  const points = Math.round(Math.abs(overconfidence) * 100);
  const how =
    Math.abs(overconfidence) <= AGREE
      ? 'You were about as sure as you were right.'
      : overconfidence > 0
        ? `You were surer than you were right, by ${points} points of 100.`
        : `You were right more often than you were sure, by ${points} points of 100.`;
  const few =
    count < FEW
      ? ` With ${count === 1 ? 'one finding' : `${count} findings`} that says little yet.`
      : '';
  return how + few;
}
