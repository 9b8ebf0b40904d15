import type { SlotOf } from '../blueprint/index.ts';
import type { Random } from '../random.ts';
import type { ExamRules } from './exam-rules.ts';
import type { ReactTask } from './form.ts';
import { lettered } from './lettered.ts';

/** Situations drawn from those the slot names; every step and every slip, in an order of no meaning. */
export function makeReact(
  slot: SlotOf<'react'>,
  { situations }: ExamRules,
  random: Random,
): ReactTask[] {
  return random.sample(slot.from, slot.count).flatMap((id, i) => {
    const situation = situations.get(id);
    if (situation === undefined) return [];
    const { title, tells, steps, slips, estimate } = situation;
    const choices = [
      ...steps.map(({ text }, index) => ({ text, from: { list: 'steps' as const, index } })),
      ...slips.map(({ text }, index) => ({ text, from: { list: 'slips' as const, index } })),
    ];
    return [
      {
        id: `react-${i + 1}`,
        kind: 'react' as const,
        weight: slot.weight / slot.count,
        estimate,
        situation: id,
        title,
        tells,
        choices: lettered(choices, random),
      },
    ];
  });
}
