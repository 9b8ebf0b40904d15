import { Mark } from '../mark.tsx';
import { say, sayDay } from '../say.ts';
import type { Place } from './place.ts';

/** Said before anything else: a bench out of service is for nobody to run, watched or not. */
export function OutNotice({ kit, bench }: Pick<Place, 'kit' | 'bench'>) {
  const out = kit.out?.find((one) => one.bench === bench.id);
  if (out === undefined) return null;
  return (
    <div class="notice" data-kind="prohibition">
      <Mark kind="prohibition" />
      <div>
        <p>
          <strong>{say('out', { asset: bench.asset })}</strong>
        </p>
        <p>{say('out.say', { day: sayDay(out.since), reason: out.reason })}</p>
      </div>
    </div>
  );
}
