import { isMeasureId, MEASURES } from '../bench/index.ts';
import type { Limit } from '../limits/index.ts';

/**
 * What a limit is about. Rule sets ask for one thing in different ways: one takes the knife gap at
 * the table, another at its widest, a third the share of the teeth that is covered.
 */
export type Topic = { readonly id: string; readonly title: string };

const SHARED: readonly { readonly title: string; readonly measures: readonly string[] }[] = [
  {
    title: 'Gap from the teeth to the riving knife',
    measures: ['knife.gapAtTable', 'knife.gapMin', 'knife.gapMax', 'knife.arcShare'],
  },
  {
    title: 'Riving knife against the blade plate',
    measures: ['knife.overPlate', 'knife.plateRatio'],
  },
  { title: 'Tip of the riving knife', measures: ['knife.tipDrop', 'knife.tipHeight'] },
  { title: 'Crown guard above the work', measures: ['guard.clearance', 'guard.height'] },
  { title: 'Far end of the fence', measures: ['fence.overrun', 'fence.pastGullets'] },
  { title: 'Table insert', measures: ['insert.gapMax', 'insert.gaps.0', 'insert.gaps.1'] },
  {
    title: 'Push stick',
    measures: ['people.pushStick', 'stick.length', 'people.pushStick.notched'],
  },
  {
    title: 'Guard under the table',
    measures: ['underGuard', 'underPlates.apart', 'underPlates.beyond'],
  },
  { title: 'Noise over the day', measures: ['noise.exposure', 'noise.atEar', 'noise.dose'] },
  { title: 'Dust over the day', measures: ['dust.exposure', 'dust.respirable'] },
];

const TOPIC_OF: ReadonlyMap<string, Topic> = new Map(
  SHARED.flatMap(({ title, measures }) =>
    measures.map((measure) => [measure, { id: measures[0] ?? measure, title }] as const),
  ),
);

export function topicOf({ measure, title }: Pick<Limit, 'measure' | 'title'>): Topic {
  const shared = TOPIC_OF.get(measure);
  if (shared !== undefined) return shared;
  return { id: measure, title: isMeasureId(measure) ? MEASURES[measure].title : title };
}
