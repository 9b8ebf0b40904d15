import { useEffect, useRef } from 'preact/hooks';
import { timeIn } from '../../words/index.ts';
import { here, pageLanguage } from '../../words/spoken.ts';
import type { SignOutcome } from '../signing/index.ts';
import { Mark } from './mark.tsx';
import { say, sayDay } from './say.ts';

type Reached = Exclude<SignOutcome, { state: 'refused' }>;
type Props = {
  readonly outcome: Reached;
  readonly isSignedOff: boolean;
  readonly who: string;
  readonly nextPath: string;
};

const sayTime = (instant: string): string =>
  `${sayDay(instant)}, ${timeIn(pageLanguage(), instant)} UTC`;

/** How far the signed record has come: signed on the device, received, logged. */
export function Outcome({ outcome, isSignedOff, who, nextPath }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const isLogged = outcome.state === 'logged';
  useEffect(() => heading.current?.focus(), [isLogged]);
  const steps = [
    { done: true, text: say('signed-here') },
    {
      done: isLogged,
      text: isLogged
        ? say('received', { when: sayTime(outcome.logged.received) })
        : say('received.not'),
    },
    {
      done: isLogged,
      text: isLogged ? say('logged', { seq: outcome.logged.seq }) : say('logged.not'),
    },
  ];
  return (
    <section aria-labelledby="outcome">
      <h2 id="outcome" tabIndex={-1} ref={heading}>
        {say(isLogged ? 'outcome.logged' : 'outcome.kept')}
      </h2>
      <ol class="reached">
        {steps.map(({ done, text }) => (
          <li key={text} data-done={done ? '' : undefined}>
            <Mark kind={done ? 'safe' : 'none'} />
            <span>{text}</span>
          </li>
        ))}
      </ol>
      {isLogged ? (
        <>
          <p>{say('outcome.copy')}</p>
          <p class="actions">
            <a class="button button--main" href={here(`/practical/${outcome.logged.signoff}`)}>
              {say('open-record')}
            </a>
            {isSignedOff && (
              <a class="button" href={here(`/proof/${outcome.logged.signoff}`)}>
                {say('open-proof')}
              </a>
            )}
            <a class="button" href={nextPath}>
              {say('another', { who })}
            </a>
          </p>
        </>
      ) : (
        <p role="alert">{say('nothing-lost', { why: outcome.message })}</p>
      )}
    </section>
  );
}
