import type { Bench } from '../bench/index.ts';
import { type AskedPlot, makePlot } from '../components/lesson/plots/index.ts';
import { sayIn } from '../words/say.ts';
import { isFromMemory, saysMemory, whyNoLimit } from './check-references.ts';
import type { LessonCase } from './course.ts';
import { type Part, texts } from './lesson-source.ts';

/** What keeps a plot from being worked out: it is made once on its bench. */
export function checkPlot(
  { attributes, text }: Part,
  bench: Bench | undefined,
  one: LessonCase,
): readonly string[] {
  const limits = texts(attributes['limits']);
  const lost = limits.map((id) => whyNoLimit(one, id)).filter((why) => why !== null);
  if (lost.length > 0) return lost.map((why) => `Plot: ${why}`);
  const silent = limits
    .filter((id) => isFromMemory(one, 'limit', id) && !saysMemory(text))
    .map((id) => `Plot: ${id} is known from memory only; the caption must say "from memory".`);
  if (bench === undefined) return silent;
  try {
    makePlot(bench, attributes as AskedPlot, one.known.sets, sayIn('en'));
    return silent;
  } catch (error) {
    return [`Plot: ${(error as Error).message}`, ...silent];
  }
}
