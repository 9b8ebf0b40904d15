import { useState } from 'preact/hooks';
import type { RefusedRecord } from '../../signing/index.ts';
import { say } from '../say.ts';

type Props = {
  readonly refused: readonly RefusedRecord[];
  readonly busy: boolean;
  readonly again: (signoff: string) => void;
  readonly openAgain: (refused: RefusedRecord) => void;
  readonly throwAway: (signoff: string) => void;
};

/** Signed records the site would not take, why, and what can be done with each. */
export function RefusedList({ refused, busy, again, openAgain, throwAway }: Props) {
  const [asked, setAsked] = useState<string | null>(null);
  if (refused.length === 0) return null;
  const button = (words: string, title: string, press: () => void) => (
    <button class="button button--quiet" type="button" disabled={busy} onClick={press}>
      {words}
      <span class="visually-hidden"> {title}</span>
    </button>
  );
  return (
    <>
      <h3>{say('refused')}</h3>
      <p>{say('refused.say')}</p>
      <ul>
        {refused.map((one) => {
          const { signoff, record, message } = one;
          return (
            <li key={signoff}>
              {record.title}: {message}
              <p class="actions">
                {button(say('refused.again'), record.title, () => again(signoff))}
                {button(say('refused.open'), record.title, () => openAgain(one))}
                {asked !== signoff &&
                  button(say('refused.throw'), record.title, () => setAsked(signoff))}
              </p>
              {asked === signoff && (
                <p>
                  {say('refused.throw.ask')}{' '}
                  {button(say('refused.throw'), record.title, () => throwAway(signoff))}{' '}
                  {button(say('throw.keep'), record.title, () => setAsked(null))}
                </p>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
}
