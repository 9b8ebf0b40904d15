import { useEffect, useRef } from 'preact/hooks';
import { timeIn } from '../../../words/index.ts';
import { here, pageLanguage } from '../../../words/spoken.ts';
import { Mark } from '../mark.tsx';
import { contentLang, say, sayDay, sayRefusal } from '../say.ts';
import type { Place } from './place.ts';
import type { Signed } from './review-all.tsx';
import type { WrittenUnit } from './write-units.ts';

type Props = {
  readonly outcome: Signed;
  readonly written: readonly WrittenUnit[];
  readonly place: Place;
  readonly another: () => void;
};

const sayTime = (instant: string): string =>
  `${sayDay(instant)}, ${timeIn(pageLanguage(), instant)} UTC`;

/** How far each signed unit has come: signed on the device, received, logged. */
export function OutcomeAll({ outcome, written, place, another }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const isLogged = outcome.state === 'logged';
  useEffect(() => {
    heading.current?.focus();
    window.scrollTo({ top: 0 });
  }, []);
  const units = new Map(written.map((one) => [one.statement.signoff, one]));
  const { person } = place.who;
  const waiting = outcome.units.filter(({ state }) => state === 'kept').length;
  return (
    <section aria-labelledby="outcome">
      <h2 id="outcome" tabIndex={-1} ref={heading}>
        {say(isLogged ? 'outcome.logged' : 'outcome.kept')}
      </h2>
      <ol class="reached">
        {outcome.units.map(({ signoff, state, logged, refused }) => {
          const one = units.get(signoff);
          const isOff = one?.statement.decision === 'signed-off';
          return (
            <li key={signoff} data-done={state === 'logged' ? '' : undefined}>
              <Mark
                kind={state === 'logged' ? 'safe' : state === 'refused' ? 'prohibition' : 'none'}
              />
              <div>
                <p>
                  <strong lang={contentLang()}>{one?.unit.title ?? signoff}</strong>:{' '}
                  {say(isOff ? 'sign-off' : 'not-yet')}
                </p>
                <p class="quiet">
                  {say('signed-here')}.{' '}
                  {logged === null
                    ? `${say('received.not')}.`
                    : `${say('received', { when: sayTime(logged.received) })}. ${say('logged', { seq: logged.seq })}.`}
                  {refused !== null && ` ${sayRefusal(refused.message)}`}
                </p>
                {logged !== null && (
                  <p>
                    <a href={here(`/practical/${signoff}`)}>
                      {say('open-record')}
                      <span class="visually-hidden"> {one?.unit.title}</span>
                    </a>{' '}
                    {isOff && (
                      <a href={here(`/proof/${signoff}`)}>
                        {say('open-proof')}
                        <span class="visually-hidden"> {one?.unit.title}</span>
                      </a>
                    )}
                  </p>
                )}
              </div>
            </li>
          );
        })}
      </ol>
      {outcome.state === 'logged' ? (
        <p>{say(outcome.left > 0 ? 'outcome.photos' : 'outcome.copy')}</p>
      ) : (
        <p role="alert">
          {waiting > 0 && <strong>{say.count('waiting.count', waiting)} </strong>}
          {say('nothing-lost', { why: outcome.message })}
        </p>
      )}
      <p class="actions">
        <button class="button button--main" type="button" onClick={another}>
          {say('another', { who: place.who.name })}
        </button>
        <a class="button" href={here('/practical/sheet')}>
          {say('to-start')}
        </a>
        {isLogged && (
          <a class="button" href={here(`/people/${person}`)}>
            {say('to-person', { who: place.who.name })}
          </a>
        )}
      </p>
    </section>
  );
}
