import type { Decision as Choice, Draft } from '../../competence/sheet/index.ts';
import { contentLang, say } from './say.ts';

type Props = {
  readonly draft: Draft;
  readonly blockers: readonly string[];
  readonly firstDay: string;
  readonly lastDay: string;
  readonly interval: { readonly months: number; readonly source: string };
  readonly who: string;
  readonly change: (part: Partial<Draft>) => void;
};

/** Sign off or not yet, until when and under which conditions; and what stands in the way. */
export function DecisionPart(props: Props) {
  const { draft, blockers, firstDay, lastDay, interval, who, change } = props;
  const stopped = draft.stops.length > 0;
  const choose = (decision: Choice) => change({ decision });
  if (stopped) return <p>{say('decision.stopped')}</p>;
  return (
    <>
      {blockers.length > 0 && (
        <details class="blockers">
          <summary>{say.count('blockers', blockers.length)}</summary>
          <ul>
            {blockers.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </details>
      )}
      <fieldset id="decision" tabIndex={-1} class="choices">
        <legend>{say('decision.on', { who })}</legend>
        <label class="choice">
          <input
            type="radio"
            name="decision"
            checked={draft.decision === 'signed-off'}
            onChange={() => choose('signed-off')}
          />
          <span>{say('sign-off')}</span>
        </label>
        <label class="choice">
          <input
            type="radio"
            name="decision"
            checked={draft.decision === 'not-yet'}
            onChange={() => choose('not-yet')}
          />
          <span>{say('not-yet')}</span>
        </label>
      </fieldset>
      {draft.decision !== 'not-yet' && (
        <div class="field">
          <label for="validUntil">{say('until')}</label>
          <p class="hint" id="validUntil.hint">
            {say('until.hint', { months: interval.months })}{' '}
            <span lang={contentLang()}>{interval.source}</span>
          </p>
          <input
            id="validUntil"
            type="date"
            min={firstDay}
            max={lastDay}
            aria-describedby="validUntil.hint"
            value={draft.validUntil}
            onInput={(event) => change({ validUntil: event.currentTarget.value })}
          />
        </div>
      )}
      <div class="field">
        <label for="conditions">{say('conditions')}</label>
        <p class="hint" id="conditions.hint">
          {say('conditions.hint')}
        </p>
        <textarea
          id="conditions"
          rows={3}
          aria-describedby="conditions.hint"
          value={draft.conditions}
          onInput={(event) => change({ conditions: event.currentTarget.value })}
        />
      </div>
    </>
  );
}
