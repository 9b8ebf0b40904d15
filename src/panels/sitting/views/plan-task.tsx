import { useEffect, useState } from 'preact/hooks';
import type { Bench } from '../../../bench/index.ts';
import type { drawBench } from '../../../drawing/index.ts';
import type { FormAnswer, TaskOf } from '../work/protocol.ts';
import type { Sitting } from '../work/sitting.ts';
import { say } from '../work/words.ts';

type Task = TaskOf<'plan'>;
type Plan = Extract<FormAnswer, { kind: 'plan' }>;
type Props = {
  readonly sitting: Sitting;
  readonly task: Task;
  readonly heading: { current: HTMLHeadingElement | null };
};

const NOTHING: Plan = { kind: 'plan', stance: null, stick: null, end: null };
const PARTS = ['stance', 'stick', 'end'] as const;

/** Where to stand, what to feed with, who carries the end: three choices and the bench from above. */
export function PlanTask({ sitting, task, heading }: Props) {
  const kept = sitting.work.value[task.id];
  const plan = kept?.kind === 'plan' ? kept : NOTHING;
  const { job, table } = task.bench;
  return (
    <section class="sitting-sheet sitting-sheet--wide">
      <h2 ref={heading} tabIndex={-1}>
        {say('task.plan')}
      </h2>
      <p>{say('plan.say')}</p>
      <p>
        {say('plan.job', {
          length: { mm: job.stock.length },
          width: { mm: job.stock.width },
          thickness: { mm: job.stock.thickness },
          cut: { mm: job.widthOfCut },
          outfeed: { mm: table.outfeed },
        })}
      </p>
      <div class="sitting-plan">
        <div>
          {PARTS.map((part) => (
            <fieldset key={part}>
              <legend>{say(`plan.${part}`)}</legend>
              {optionsOf(task, part).map(({ id, words }) => (
                <label key={id} class="choice">
                  <input
                    type="radio"
                    name={`plan-${part}`}
                    checked={plan[part] === id}
                    onChange={() => sitting.change(task.id, { ...plan, [part]: id })}
                  />
                  {words}
                </label>
              ))}
            </fieldset>
          ))}
        </div>
        <FromAbove bench={planned(task, plan)} />
      </div>
    </section>
  );
}

function optionsOf(
  task: Task,
  part: (typeof PARTS)[number],
): readonly { readonly id: string; readonly words: string }[] {
  switch (part) {
    case 'stance':
      return task.stances.map(({ id, x, z }) => {
        const before = { mm: Math.abs(x) };
        const words =
          z === 0
            ? say('plan.stance.line', { before })
            : say('plan.stance.at', {
                before,
                aside: { mm: Math.abs(z) },
                side: say(z > 0 ? 'plan.side.fence' : 'plan.side.open'),
              });
        return { id, words };
      });
    case 'stick':
      return task.sticks.map(({ id, length, usedForLast }) => ({
        id,
        words:
          length === 0
            ? say('plan.stick.hand')
            : say('plan.stick.at', { length: { mm: length }, last: { mm: usedForLast } }),
      }));
    case 'end':
      return task.ends.map(({ id, by, at }) => ({
        id,
        words: say(`plan.end.${by}`, { at: { mm: at ?? 0 } }),
      }));
  }
}

/** The bench with what was chosen, to be drawn; nobody stands anywhere until that is chosen. */
function planned({ bench, stances, ends }: Task, { stance, end }: Plan): Bench {
  const stand = stances.find(({ id }) => id === stance);
  const care = ends.find(({ id }) => id === end);
  const { operator } = bench.people;
  const { x: _x, z: _z, ...worn } = operator;
  const at = care?.at ?? null;
  return {
    ...bench,
    table: care?.by === 'extension' && at !== null ? { ...bench.table, outfeed: at } : bench.table,
    people: {
      ...bench.people,
      // far off the sheet
      operator: { ...operator, x: stand?.x ?? -9000, z: stand?.z ?? 0 },
      takeOff: care?.by === 'taker-off' && at !== null ? { ...worn, x: at, z: -200 } : null,
    },
  };
}

/** mm shown round the blade: wide enough for anybody a plan can place. */
const CLIP = { left: -1300, right: 2700, bottom: -700, top: 600 };

function FromAbove({ bench }: { readonly bench: Bench }) {
  const [draw, setDraw] = useState<{ readonly by: typeof drawBench } | null>(null);
  useEffect(() => {
    import('../../../drawing/index.ts').then(
      (drawing) => setDraw({ by: drawing.drawBench }),
      // the choices are told in words; the drawing only helps
      () => setDraw(null),
    );
  }, []);
  if (draw === null) return null;
  const svg = draw.by(bench, {
    view: 'plan',
    clip: CLIP,
    // before the blade: nothing has been cut yet
    cut: { lead: -bench.blade.diameter / 2, strip: null },
    title: say('plan.drawing'),
    description: say('plan.description'),
  });
  return (
    <div
      class="drawing sitting-drawing"
      // computed here from numbers and this panel's own words
      dangerouslySetInnerHTML={{ __html: svg }}
    />
  );
}
