import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { englishOnly, here } from '../../../words/spoken.ts';
import type { SittingCard, TimeChoice } from '../work/protocol.ts';
import type { Sitting } from '../work/sitting.ts';
import { say } from '../work/words.ts';

type Props = { readonly sitting: Sitting };

/** All that is not the test itself: before it, between, and after. */
export function Door({ sitting }: Props) {
  const phase = sitting.phase.value;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (phase !== 'asking') heading.current?.focus();
  }, [phase]);
  if (phase === 'asking') {
    return (
      <section class="bench-door">
        <p class="lead" role="status">
          {say('door.asking')}
        </p>
      </section>
    );
  }
  const { title, lang, body } = roomOf(sitting);
  return (
    <section class="bench-door sitting-door">
      <h2 ref={heading} tabIndex={-1} lang={lang}>
        {title}
      </h2>
      {body}
      {phase !== 'failed' && sitting.trouble.value !== null && (
        <p class="problem" role="alert">
          {sitting.trouble.value}
        </p>
      )}
    </section>
  );
}

type Room = {
  readonly title: string;
  /** of the title, where it is not in the language of the page */
  readonly lang?: 'en' | undefined;
  readonly body: ComponentChildren;
};

function roomOf(sitting: Sitting): Room {
  const card = sitting.card.value;
  switch (sitting.phase.value) {
    case 'ready':
      return {
        title: card?.title ?? '',
        lang: englishOnly(),
        body: card && <Ready sitting={sitting} card={card} />,
      };
    case 'held':
      return {
        title: say('door.held'),
        body: (
          <>
            <p>{say('door.held-say')}</p>
            <p class="actions">
              <Act onClick={() => void sitting.open('take-over')} say={say('door.take-over')} />
              <AllTests />
            </p>
          </>
        ),
      };
    case 'taken':
      return {
        title: say('taken.title'),
        body: (
          <>
            <p>{say('taken.say')}</p>
            <p class="actions">
              <Act onClick={() => void sitting.open('take-over')} say={say('door.take-over')} />
              <AllTests />
            </p>
          </>
        ),
      };
    case 'other':
      return { title: say('door.other'), body: <Other sitting={sitting} /> };
    case 'paused':
      return {
        title: say('paused.title'),
        body: (
          <>
            <p>{say('paused.say')}</p>
            <p class="actions">
              <Act onClick={() => sitting.goOn()} say={say('paused.go-on')} />
            </p>
          </>
        ),
      };
    case 'ended':
      return { title: say('ended.title'), body: <Ended sitting={sitting} /> };
    default:
      return {
        title: say('door.failed'),
        body: (
          <>
            <p>{sitting.trouble.value}</p>
            <p class="actions">
              <Act onClick={() => void sitting.open('look')} say={say('door.again')} />
              <a
                class="button"
                href={`${here('/sign-in')}?next=${encodeURIComponent(location.pathname)}`}
              >
                {say('door.sign-in')}
              </a>
            </p>
          </>
        ),
      };
  }
}

const Act = ({ onClick, say: words }: { readonly onClick: () => void; readonly say: string }) => (
  <button type="button" class="button button--main" onClick={onClick}>
    {words}
  </button>
);
const AllTests = () => (
  <a class="button" href={here('/tests/')}>
    {say('door.all')}
  </a>
);

const TIMES: readonly (readonly [TimeChoice, number])[] = [
  ['as-set', 1],
  ['half-more', 1.5],
  ['twice', 2],
  ['ten-times', 10],
  ['off', 0],
];

function Ready({ sitting, card }: Props & { readonly card: SittingCard }) {
  const [time, setTime] = useState<TimeChoice>('as-set');
  const { minutes } = card;
  return (
    <>
      <p lang={englishOnly()}>{card.brief}</p>
      <h3>{say('door.parts')}</h3>
      <ul>
        {card.kinds.map((kind) => (
          <li key={kind}>{say(`kind.${kind}`)}</li>
        ))}
      </ul>
      <p class="quiet">{say('door.held-to', { sets: card.heldTo.join(', ') })}</p>
      {minutes === null ? (
        <p>{say('door.time-none')}</p>
      ) : (
        <fieldset class="sitting-times">
          <legend>{say('door.time')}</legend>
          {TIMES.map(([choice, factor]) => (
            <label key={choice} class="choice">
              <input
                type="radio"
                name="sitting-time"
                checked={time === choice}
                onChange={() => setTime(choice)}
              />
              {say(`door.time.${choice}`, { minutes: minutes * factor })}
            </label>
          ))}
          <p class="hint">{say('door.time-hint')}</p>
        </fieldset>
      )}
      <p>{say(`door.${card.feedback}`)}</p>
      <p>{say('door.kept')}</p>
      <p class="hint">{say('door.caution')}</p>
      <p class="actions">
        <Act onClick={() => void sitting.open('begin', time)} say={say('door.begin')} />
        <AllTests />
      </p>
    </>
  );
}

function Other({ sitting }: Props) {
  const other = sitting.other.value;
  if (other === null) return null;
  return (
    <>
      <p>{say('door.other-say', { title: other.title })}</p>
      <p class="actions">
        <a class="button button--main" href={here(`/tests/${other.blueprint}`)}>
          {say('door.other-go', { title: other.title })}
        </a>
        <AllTests />
      </p>
    </>
  );
}

function Ended({ sitting }: Props) {
  const ended = sitting.ended.value;
  if (ended === null) return null;
  return (
    <>
      {ended.ended !== 'handed-in' && <p>{say(`ended.${ended.ended}`)}</p>}
      <p>{say(`ended.${ended.feedback}`)}</p>
      <p class="hint">{say('door.caution')}</p>
      <p class="actions">
        <a class="button button--main" href={here(ended.review)}>
          {say(ended.feedback === 'now' ? 'ended.review' : 'ended.see')}
        </a>
        <AllTests />
      </p>
    </>
  );
}
