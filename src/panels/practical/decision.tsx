import type { Decision as Choice, Draft } from '../../competence/sheet/index.ts';

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
  if (stopped) return <p>Not yet: the work was stopped.</p>;
  return (
    <>
      {blockers.length > 0 && (
        <details class="blockers">
          <summary>
            {blockers.length === 1
              ? 'One thing stands in the way of signing off'
              : `${blockers.length} things stand in the way of signing off`}
          </summary>
          <ul>
            {blockers.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </details>
      )}
      <fieldset id="decision" tabIndex={-1} class="choices">
        <legend>Your decision on {who}</legend>
        <label class="choice">
          <input
            type="radio"
            name="decision"
            checked={draft.decision === 'signed-off'}
            onChange={() => choose('signed-off')}
          />
          <span>Sign off</span>
        </label>
        <label class="choice">
          <input
            type="radio"
            name="decision"
            checked={draft.decision === 'not-yet'}
            onChange={() => choose('not-yet')}
          />
          <span>Not yet</span>
        </label>
      </fieldset>
      {draft.decision !== 'not-yet' && (
        <div class="field">
          <label for="validUntil">Valid until</label>
          <p class="hint" id="validUntil.hint">
            At most {interval.months} months; shorten it where you see reason. {interval.source}
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
        <label for="conditions">Conditions</label>
        <p class="hint" id="conditions.hint">
          One to a line, such as: softwood up to 50 mm. Leave it empty when there are none.
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
