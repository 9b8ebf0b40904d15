import { isMeasureId } from '../../bench/index.ts';
import type { RuleRow } from '../../grading/index.ts';
import type { Speaker } from '../../words/say.ts';

/** What a topic is called: rule sets share some; a measure has its name; the rest is as its limit says. */
export function titleOfTopic({ id, title }: RuleRow['topic'], say: Speaker): string {
  if (say.language === 'en') return title;
  const single = isMeasureId(id)
    ? say.maybe(`names.measure.${id}`, title)
    : say.maybe(`limits.row.${id}`, title);
  return say.maybe(`limits.topic.${id}`, single);
}
