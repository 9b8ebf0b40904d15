import type { Desk } from '../work/desk.ts';
import { say } from '../work/words.ts';

/** Brings every tooth past the eye, with the supply locked off. */
export function TurnBlade({ desk }: { readonly desk: Desk }) {
  return (
    <section>
      <h3>{say('blade.turn')}</h3>
      <div class="bench-buttons">
        <button type="button" class="button" onClick={() => desk.turnBlade(-1)}>
          {say('blade.turn-back')}
        </button>
        <button type="button" class="button" onClick={() => desk.turnBlade(1)}>
          {say('blade.turn-on')}
        </button>
      </div>
    </section>
  );
}
