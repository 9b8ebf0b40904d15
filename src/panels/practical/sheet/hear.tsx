import { useEffect, useRef, useState } from 'preact/hooks';
import { type Heard, heardOf, type PracticalDraft } from '../../../competence/sheet/index.ts';
import { contentLang, say, sayDay } from '../say.ts';
import type { ReadyUnit } from './check-practical.ts';
import type { Place } from './place.ts';

type Props = {
  readonly ready: readonly ReadyUnit[];
  readonly draft: PracticalDraft;
  readonly place: Place;
  readonly put: (heard: Heard) => void;
  readonly next: () => void;
  readonly back: () => void;
};

const ANSWERS = ['agrees', 'disagrees', 'not-asked'] as const;

/** What the result of one unit is, in words for the person watched. */
function Result({ unit, sheet }: ReadyUnit) {
  const texts = new Map(unit.criteria.map(({ id, text }) => [id, text]));
  const unmet = sheet.criteria.filter(({ result }) => result !== 'yes');
  const stops = unit.stops.filter(({ id }) => sheet.stops.includes(id));
  return (
    <li class="hear-result">
      <p>
        <strong lang={contentLang()}>
          {unit.number}. {unit.title}
        </strong>
        <br />
        {sheet.decision === 'signed-off'
          ? say('hear.signed-off', { until: sayDay(sheet.validUntil ?? '') })
          : say('hear.not-yet')}
      </p>
      {(stops.length > 0 || unmet.length > 0) && (
        <ul>
          {stops.map(({ id, text }) => (
            <li key={id} lang={contentLang()}>
              {text}
            </li>
          ))}
          {unmet.map(({ id, result, note }) => (
            <li key={id}>
              <span lang={contentLang()}>{texts.get(id)}</span> {say(result)}.
              {note !== undefined && ` ${note}`}
            </li>
          ))}
        </ul>
      )}
    </li>
  );
}

/** The tablet in the hands of the person watched: the result in plain words, and what they say to it. */
export function Hear({ ready, draft, place, put, next, back }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const { heard } = draft;
  const who = place.who.name;
  useEffect(() => {
    heading.current?.focus();
    window.scrollTo({ top: 0 });
  }, []);
  const goOn = () => {
    if (heardOf(draft) !== null) return next();
    const isSilent = heard.answer === null;
    setProblem(say(isSilent ? 'hear.answer' : 'hear.words'));
    document.getElementById(isSilent ? 'heard' : 'heard.words')?.focus();
  };
  return (
    <section aria-labelledby="hear-title">
      <h2 id="hear-title" tabIndex={-1} ref={heading}>
        {say('hear', { who })}
      </h2>
      <p>{say('hear.say', { trainer: place.kit.trainer.name, asset: place.bench.asset })}</p>
      <ol class="hear-results">
        {ready.map((one) => (
          <Result key={one.unit.id} {...one} />
        ))}
      </ol>
      {problem !== null && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <fieldset id="heard" tabIndex={-1} class="choices">
        <legend>{say('hear.legend', { who })}</legend>
        {ANSWERS.map((answer) => (
          <label class="choice" key={answer}>
            <input
              type="radio"
              name="heard"
              checked={heard.answer === answer}
              onChange={() => {
                setProblem(null);
                put({ ...heard, answer });
              }}
            />
            <span>{say(`hear.${answer}`)}</span>
          </label>
        ))}
      </fieldset>
      <div class="field">
        <label for="heard.words">{say('hear.in-words')}</label>
        <p class="hint" id="heard.hint">
          {say('hear.hint')}
        </p>
        <textarea
          id="heard.words"
          rows={3}
          maxLength={500}
          autocapitalize="sentences"
          autocomplete="off"
          spellcheck
          required={heard.answer !== null && heard.answer !== 'agrees'}
          aria-describedby="heard.hint"
          value={heard.words}
          onInput={(event) => put({ ...heard, words: event.currentTarget.value })}
        />
      </div>
      <p class="actions">
        <button class="button button--main button--glove" type="button" onClick={goOn}>
          {say('hear.done', { trainer: place.kit.trainer.name })}
        </button>
        <button class="button" type="button" onClick={back}>
          {say('back')}
        </button>
      </p>
    </section>
  );
}
