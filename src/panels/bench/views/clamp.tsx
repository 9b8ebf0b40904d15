import type { Bench, ClampedPart } from '../../../bench/index.ts';
import type { Desk } from '../work/desk.ts';
import { settingsOf } from '../work/parts.ts';
import { say } from '../work/words.ts';
import { SettingHandle } from './setting-handle.tsx';

type Props = { readonly bench: Bench; readonly desk: Desk; readonly part: ClampedPart };

/** Trying by hand, the clamp, and once it is loose, the handles. */
export function Clamp({ bench, desk, part }: Props) {
  const held = bench[part];
  if (held === null) return <p>{say('clamp.taken-off')}</p>;
  return (
    <section>
      <h3>{say('clamp.title')}</h3>
      <div class="bench-buttons">
        <button type="button" class="button" onClick={() => desk.act({ do: 'try', part })}>
          {say('clamp.try')}
        </button>
        <button
          type="button"
          class="button"
          onClick={() => desk.act({ do: held.locked ? 'unlock' : 'lock', part })}
        >
          {say(held.locked ? 'clamp.unlock' : 'clamp.lock')}
        </button>
        {part === 'guard' && <Fingers bench={bench} desk={desk} />}
      </div>
      {held.locked ? (
        <p class="hint">{say('clamp.locked-hint')}</p>
      ) : (
        settingsOf(part).map((setting) => (
          <SettingHandle key={setting} bench={bench} desk={desk} setting={setting} />
        ))
      )}
    </section>
  );
}

function Fingers({ bench, desk }: { readonly bench: Bench; readonly desk: Desk }) {
  const fingers = bench.guard?.fingers ?? 'none';
  if (fingers === 'none') return null;
  const isUp = fingers === 'raised';
  return (
    <button
      type="button"
      class="button"
      onClick={() => desk.act({ do: isUp ? 'rest-fingers' : 'raise-fingers' })}
    >
      {say(isUp ? 'fingers.rest' : 'fingers.raise')}
    </button>
  );
}
