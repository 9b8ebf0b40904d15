import { CONFIDENCE, type Confidence } from '../../assessment/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { GradedSitting } from './graded.ts';

export type SureRow = {
  readonly word: string;
  /** chance of being right that goes with the word, 0 to 100 */
  readonly stated: number;
  readonly given: number;
  readonly right: number;
};

const WORDS: readonly Confidence[] = ['certain', 'fairly-sure', 'guess'];

/** Findings by how sure one was, and how many of them were right. */
export function sureRows({ form, work, grade }: GradedSitting, say: Speaker): SureRow[] {
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
  return WORDS.map((word) => {
    const given = standing.filter(([, one]) => one.confidence === word);
    return {
      word: say(`review.sure.${word}`),
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
export function sayCalibration(
  { grade: { calibration } }: GradedSitting,
  say: Speaker,
): string | null {
  if (calibration === null) return null;
  const { overconfidence, count } = calibration;
  const points = Math.round(Math.abs(overconfidence) * 100);
  const how =
    Math.abs(overconfidence) <= AGREE
      ? say('review.sure.even')
      : overconfidence > 0
        ? say('review.sure.over', { points })
        : say('review.sure.under', { points });
  return count < FEW ? `${how} ${say.count('review.sure.few', count)}` : how;
}
