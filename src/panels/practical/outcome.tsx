import { useEffect, useRef } from 'preact/hooks';
import type { SignOutcome } from '../signing/index.ts';
import { Mark } from './mark.tsx';

type Reached = Exclude<SignOutcome, { state: 'refused' }>;
type Props = {
  readonly outcome: Reached;
  readonly isSignedOff: boolean;
  readonly who: string;
  readonly nextPath: string;
};

const sayTime = (instant: string): string => instant.replace('T', ', ').replace(/\.\d+Z$/, ' UTC');

/** How far the signed record has come: signed on the device, received, logged. */
export function Outcome({ outcome, isSignedOff, who, nextPath }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const isLogged = outcome.state === 'logged';
  useEffect(() => heading.current?.focus(), [isLogged]);
  const steps = [
    { done: true, text: 'Signed on this device' },
    {
      done: isLogged,
      text: isLogged
        ? `Received by the site on ${sayTime(outcome.logged.received)}`
        : 'Not received by the site yet',
    },
    {
      done: isLogged,
      text: isLogged ? `Logged as record ${outcome.logged.seq}` : 'Not in the log yet',
    },
  ];
  return (
    <section aria-labelledby="outcome">
      <h2 id="outcome" tabIndex={-1} ref={heading}>
        {isLogged ? 'Signed and logged' : 'Signed, and kept on this device'}
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
          <p>A copy of the newest head of the log is kept on this device.</p>
          <p class="actions">
            <a class="button button--main" href={`/practical/${outcome.logged.signoff}`}>
              Open the record
            </a>
            {isSignedOff && (
              <a class="button" href={`/proof/${outcome.logged.signoff}`}>
                Open the proof
              </a>
            )}
            <a class="button" href={nextPath}>
              Another unit for {who}
            </a>
          </p>
        </>
      ) : (
        <p role="alert">
          {outcome.message} Nothing is lost: what you signed stays on this device until the site has
          it.
        </p>
      )}
    </section>
  );
}
