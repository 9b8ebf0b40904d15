import type { Fit } from '../../../assessment/index.ts';
import type { Action } from '../../../bench/index.ts';
import type { BenchTask } from '../work/bench-task.ts';
import type { TaskOf } from '../work/protocol.ts';
import { say } from '../work/words.ts';

type Props = { readonly open: BenchTask; readonly task: TaskOf<'set'> };
type Item = { readonly id: string; readonly title: string; readonly about: string };

/** What there is to choose from, with the figures stamped on it; one touch fits it. */
export function RackPaper({ open, task }: Props) {
  const { attempt, desk, settingOf } = open;
  const bench = attempt.bench.value;
  const on = bench === null ? null : settingOf(bench);

  function putOn(what: Fit['what'], { id, title }: Item): void {
    const move: Fit = { do: 'fit', what, id };
    const kinds = attempt.act(move as unknown as Action).map(({ kind }) => String(kind));
    const isLive = kinds.includes('not-isolated');
    const came = kinds.includes('cannot')
      ? say('rack.cannot', { what: title })
      : say('rack.fitted', { what: title });
    // in a test a live blade is told with the result
    const isTold = isLive && attempt.started.value?.task.mode === 'practice';
    desk.speak(isTold ? `${say('rack.live')} ${came}` : came, isTold ? 'danger' : 'plain');
    desk.reading.value = null;
  }

  const list = (what: Fit['what'], items: readonly Item[], mounted: string | null | undefined) => (
    <section>
      <h3>
        {say(`rack.${what === 'knife' ? 'knives' : what === 'blade' ? 'blades' : 'inserts'}`)}
      </h3>
      <ul class="sitting-rack">
        {items.map((item) => (
          <li key={item.id}>
            <p>
              <strong>{item.title}</strong>
              {item.id === mounted && <span class="sitting-on">{say('rack.on')}</span>}
              {item.about !== '' && <span class="quiet">{item.about}</span>}
            </p>
            {item.id !== mounted && (
              <button
                type="button"
                class="button button--quiet"
                onClick={() => putOn(what, item)}
                aria-label={say('rack.fit', { what: item.title })}
              >
                {say('rack.fit', { what: '' }).trim()}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );

  return (
    <>
      <h2>{say('rack.title')}</h2>
      <p class="hint">{say('rack.say')}</p>
      {list(
        'blade',
        task.blades.map((blade) => ({
          id: blade.id,
          title: blade.title,
          about: say('rack.blade', {
            diameter: { mm: blade.diameter },
            teeth: blade.teeth,
            plate: { mm: blade.plate },
            kerf: { mm: blade.kerf },
            hook: blade.hookAngle,
            speed: blade.maxSpeed,
          }),
        })),
        on?.blade,
      )}
      {list(
        'knife',
        task.knives.map((knife) => ({
          id: knife.id,
          title: knife.title,
          about: say('rack.knife', {
            thickness: { mm: knife.thickness, digits: 2 },
            radius: { mm: knife.edgeRadius },
          }),
        })),
        on?.knife,
      )}
      {list(
        'insert',
        task.inserts.map(({ id, slot }) => ({
          id,
          title: say('rack.insert', { slot: { mm: slot } }),
          about: '',
        })),
        on?.insert,
      )}
    </>
  );
}
