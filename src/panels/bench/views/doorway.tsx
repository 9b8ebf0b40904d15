import { useEffect, useRef } from 'preact/hooks';
import type { Attempt } from '../work/attempt.ts';
import { nameTask } from '../work/names.ts';
import { say, sayCount } from '../work/words.ts';

/** Before the bench: waiting for it, work left from last time, or the reason there is none. */
export function Doorway({ attempt }: { readonly attempt: Attempt }) {
  const phase = attempt.phase.value;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (phase !== 'asking') heading.current?.focus();
  }, [phase]);

  if (phase === 'offering') return <Offer attempt={attempt} heading={heading} />;
  if (phase === 'failed') {
    return (
      <section class="bench-door" role="alert">
        <h2 ref={heading} tabIndex={-1}>
          {say('door.failed')}
        </h2>
        <p>{attempt.trouble.value?.message}</p>
        <p class="actions">
          <button type="button" class="button button--main" onClick={() => void attempt.start()}>
            {say('door.again')}
          </button>
          {attempt.offered.value !== null && (
            <button type="button" class="button" onClick={() => void attempt.carryOn()}>
              {say('door.carry-on')}
            </button>
          )}
        </p>
      </section>
    );
  }
  return (
    <section class="bench-door">
      <p class="lead" role="status">
        {say('door.asking')}
      </p>
    </section>
  );
}

type OfferProps = {
  readonly attempt: Attempt;
  readonly heading: { current: HTMLHeadingElement | null };
};

function Offer({ attempt, heading }: OfferProps) {
  const kept = attempt.offered.value;
  if (kept === null) return null;
  const isIn = kept.outcome !== null;
  const told = nameTask(kept.started.task);
  return (
    <section class="bench-door">
      <h2 ref={heading} tabIndex={-1} lang={told.lang}>
        {told.title}
      </h2>
      <p>
        {isIn
          ? say('door.kept-result')
          : say('door.kept', {
              actions: sayCount(
                'things',
                kept.actions.filter((action) => action.do !== 'look').length,
              ),
              claims: sayCount('faults', kept.claims.length),
            })}
      </p>
      <p class="actions">
        <button type="button" class="button button--main" onClick={() => void attempt.carryOn()}>
          {say(isIn ? 'door.see-result' : 'door.carry-on')}
        </button>
        <button type="button" class="button" onClick={() => void attempt.takeFresh()}>
          {say('door.fresh')}
        </button>
      </p>
      {!isIn && <p class="hint">{say('door.fresh-hint')}</p>}
    </section>
  );
}
