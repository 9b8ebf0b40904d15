import { useState } from 'preact/hooks';
import { englishOnly } from '../../../words/spoken.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { focusSoon } from '../work/focus-soon.ts';
import type { Choices } from '../work/protocol.ts';
import { say } from '../work/words.ts';
import { faultTitle, namePart, nameRemedy } from './fault-paper.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk; readonly choices: Choices };

/** From least to most sure, as a form grades it. */
const CONFIDENCE = ['guess', 'fairly-sure', 'certain'] as const;

/** Part, what is wrong, what to do about it. The choices are the whole catalogue, always the same. */
export function ClaimForm({ attempt, desk, choices }: Props) {
  const [problem, setProblem] = useState<string | null>(null);
  const draft = attempt.draft.value;
  const asksHowSure = attempt.started.value?.task.sitting === true;
  const faults = choices.faults.filter((one) => one.part === draft.part);

  function write(event: Event): void {
    event.preventDefault();
    const missing = (['part', 'fault', 'remedy'] as const).find((field) => draft[field] === '');
    const isUnsure = asksHowSure && draft.confidence === undefined;
    const refusal =
      missing !== undefined
        ? say(`write.no-${missing}`)
        : isUnsure
          ? say('write.no-confidence')
          : attempt.writeDown(draft)
            ? null
            : say('write.twice');
    setProblem(refusal);
    if (refusal !== null) return;
    desk.speak(say('write.done', { fault: faultTitle(choices, draft) }));
    focusSoon('bench-write');
  }

  return (
    <form class="bench-claim" onSubmit={write} noValidate>
      <h3 id="bench-write" tabIndex={-1}>
        {say('write.title')}
      </h3>
      <div class="field">
        <label for="bench-claim-part">{say('write.part')}</label>
        <select
          id="bench-claim-part"
          value={draft.part}
          onChange={(event) =>
            attempt.jot({ ...draft, part: event.currentTarget.value, fault: '' })
          }
        >
          <option value="">{say('write.choose')}</option>
          {choices.parts.map(({ part, title }) => (
            <option key={part} value={part}>
              {namePart(part, title)}
            </option>
          ))}
        </select>
      </div>
      {draft.part !== '' && (
        <fieldset>
          <legend>{say('write.fault')}</legend>
          {faults.map(({ id, title }) => (
            <label key={id} class="choice">
              <input
                type="radio"
                name="bench-claim-fault"
                checked={draft.fault === id}
                onChange={() => attempt.jot({ ...draft, fault: id })}
              />
              <span lang={englishOnly()}>{title}</span>
            </label>
          ))}
        </fieldset>
      )}
      <div class="field">
        <label for="bench-claim-remedy">{say('write.remedy')}</label>
        <select
          id="bench-claim-remedy"
          value={draft.remedy}
          onChange={(event) => attempt.jot({ ...draft, remedy: event.currentTarget.value })}
        >
          <option value="">{say('write.choose')}</option>
          {choices.remedies.map(({ id, title }) => (
            <option key={id} value={id}>
              {nameRemedy(id, title)}
            </option>
          ))}
        </select>
      </div>
      {asksHowSure && (
        <fieldset>
          <legend>{say('write.confidence')}</legend>
          {CONFIDENCE.map((confidence) => (
            <label key={confidence} class="choice">
              <input
                type="radio"
                name="bench-claim-confidence"
                checked={draft.confidence === confidence}
                onChange={() => attempt.jot({ ...draft, confidence })}
              />
              {say(`sure.${confidence}`)}
            </label>
          ))}
        </fieldset>
      )}
      {problem !== null && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <button type="submit" class="button button--main">
        {say('write.add')}
      </button>
    </form>
  );
}
