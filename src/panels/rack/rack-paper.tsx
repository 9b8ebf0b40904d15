import { type Fit, OWN } from '../../assessment/index.ts';
import type { Action } from '../../bench/index.ts';
import { englishOnly } from '../../words/spoken.ts';
import type { Attempt } from '../bench/work/attempt.ts';
import type { Desk } from '../bench/work/desk.ts';
import { sayRack } from './rack-words.ts';
import '../bench/styles/task.css';

type Props = { readonly attempt: Attempt; readonly desk: Desk };
type Item = { readonly id: string; readonly title: string; readonly about: string };

/** What there is to choose from, with the figures stamped on it; one touch fits it. */
export function RackPaper({ attempt, desk }: Props) {
  const bench = attempt.bench.value;
  const hung = desk.rack.value;
  if (bench === null || hung === null) return null;
  const { rack } = hung;
  const on = hung.settingOf(bench);
  const isWorking = attempt.phase.value === 'working';

  function putOn(what: Fit['what'], { id, title }: Item): void {
    const move: Fit = { do: 'fit', what, id };
    if (!desk.mayTry(move)) return;
    const kinds = attempt.act(move as unknown as Action).map(({ kind }) => String(kind));
    const isLive = kinds.includes('not-isolated');
    const came = kinds.includes('cannot')
      ? sayRack('rack.cannot', { what: title })
      : sayRack('rack.fitted', { what: title });
    // in a test a live blade is told with the result
    const isTold = isLive && attempt.started.value?.task.mode === 'practice';
    desk.speak(isTold ? `${sayRack('rack.live')} ${came}` : came, isTold ? 'danger' : 'plain');
    desk.reading.value = null;
  }

  const list = (what: Fit['what'], items: readonly Item[], mounted: string | null | undefined) => (
    <section>
      <h3>
        {sayRack(`rack.${what === 'knife' ? 'knives' : what === 'blade' ? 'blades' : 'inserts'}`)}
      </h3>
      <ul class="bench-rack">
        {mounted === OWN && (
          <li>
            <p>
              <strong>{sayRack('rack.now')}</strong>
              <span class="bench-on">{sayRack('rack.on')}</span>
            </p>
          </li>
        )}
        {items.map((item) => (
          <li key={item.id}>
            <p>
              <strong lang={what === 'insert' ? undefined : englishOnly()}>{item.title}</strong>
              {item.id === mounted && <span class="bench-on">{sayRack('rack.on')}</span>}
              {item.about !== '' && <span class="quiet">{item.about}</span>}
            </p>
            {item.id !== mounted && isWorking && (
              <button
                type="button"
                class="button button--quiet"
                onClick={() => putOn(what, item)}
                aria-label={sayRack('rack.fit', { what: item.title })}
              >
                {sayRack('rack.fit', { what: '' }).trim()}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );

  return (
    <>
      <h2>{sayRack('rack.title')}</h2>
      <p class="hint">{sayRack('rack.say')}</p>
      {list(
        'blade',
        rack.blades.map((blade) => ({
          id: blade.id,
          title: blade.title,
          about: sayRack('rack.blade', {
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
        rack.knives.map((knife) => ({
          id: knife.id,
          title: knife.title,
          about: sayRack('rack.knife', {
            thickness: { mm: knife.thickness, digits: 2 },
            radius: { mm: knife.edgeRadius },
          }),
        })),
        on?.knife,
      )}
      {list(
        'insert',
        rack.inserts.map(({ id, slot }) => ({
          id,
          title: sayRack('rack.insert', { slot: { mm: slot } }),
          about: '',
        })),
        on?.insert,
      )}
    </>
  );
}
