import type { Bench } from '../../../bench/index.ts';
import type { Desk } from '../work/desk.ts';
import { say } from '../work/words.ts';

type Props = { readonly bench: Bench; readonly desk: Desk };

export function Isolator({ bench, desk }: Props) {
  const { isolated, isolator } = bench.controls;
  return (
    <section>
      <h3>{say('isolator.title')}</h3>
      <p>{say(isolated ? 'isolator.locked' : 'isolator.on')}</p>
      <button
        type="button"
        class="button"
        onClick={() => desk.act({ do: isolated ? 'reconnect' : 'isolate' })}
      >
        {say(isolated ? 'isolator.reconnect' : `isolator.isolate-${isolator}`)}
      </button>
      <p>
        <button type="button" class="bench-link" onClick={() => desk.turnTo('cut')}>
          {say('isolator.cut')}
        </button>
      </p>
    </section>
  );
}
