import type { Unit } from '../../../competence/index.ts';
import {
  changeUnit,
  type Decision,
  dayOf,
  draftOfUnit,
  isDay,
  lastDayAllowed,
  type PracticalDraft,
  stoppedIn,
  touchedUnits,
} from '../../../competence/sheet/index.ts';
import { contentLang, say, sayProblem } from '../say.ts';
import { blockersOf } from './check-practical.ts';
import type { Place } from './place.ts';
import type { Step } from './steps.tsx';

type Props = {
  readonly draft: PracticalDraft;
  readonly place: Place;
  readonly today: string;
  readonly change: (make: (draft: PracticalDraft) => PracticalDraft) => void;
  readonly go: (step: Step, field: string) => void;
};

const CHOICES: readonly Decision[] = ['signed-off', 'not-yet'];

/** The decision on one unit, and what stands in the way of signing it off. */
function UnitDecision({ unit, draft, place, change, go }: Omit<Props, 'today'> & { unit: Unit }) {
  const blockers = blockersOf(draft, unit, place);
  const { decision } = draftOfUnit(draft, unit.id);
  const isStopped = stoppedIn(draft) !== null;
  return (
    <li class="finish-unit">
      <fieldset id={`decision.${unit.id}`} tabIndex={-1} class="choices">
        <legend lang={contentLang()}>
          {unit.number}. {unit.title}
        </legend>
        {isStopped ? (
          <p>{say('decision.stopped')}</p>
        ) : (
          CHOICES.map((value) => (
            <label class="choice" key={value}>
              <input
                type="radio"
                name={`decision.${unit.id}`}
                checked={decision === value}
                onChange={() => change((now) => changeUnit(now, unit.id, { decision: value }))}
              />
              <span>{say(value === 'signed-off' ? 'sign-off' : 'not-yet')}</span>
            </label>
          ))
        )}
        {!isStopped && blockers.length === 0 && <p class="quiet">{say('nothing-in-the-way')}</p>}
      </fieldset>
      {!isStopped && blockers.length > 0 && (
        <details class="blockers" open={decision === 'signed-off'}>
          <summary>{say.count('blockers', blockers.length)}</summary>
          <ul>
            {blockers.map(({ field, told }) => {
              const sentence = sayProblem(told);
              const step = field.startsWith('blade.') ? 'machine' : unit.id;
              return (
                <li key={sentence}>
                  <button
                    class="button button--quiet"
                    type="button"
                    onClick={() => go(step, field)}
                  >
                    {sentence}
                  </button>
                </li>
              );
            })}
          </ul>
        </details>
      )}
    </li>
  );
}

/** What stands in nobody's way is signed off, the rest is not yet: for the trainer to confirm or change. */
const proposeAll = (draft: PracticalDraft, units: readonly Unit[], place: Place): PracticalDraft =>
  units.reduce((now, unit) => {
    if (draftOfUnit(now, unit.id).decision !== null) return now;
    const decision = blockersOf(now, unit, place).length === 0 ? 'signed-off' : 'not-yet';
    return changeUnit(now, unit.id, { decision });
  }, draft);

/** The end of a practical: a decision on each unit of it, until when, and under which conditions. */
export function Finish({ draft, place, today, change, go }: Props) {
  const units = touchedUnits(draft, place.units);
  const open = units.filter(({ id }) => draftOfUnit(draft, id).decision === null);
  const { observedAt, validUntil, conditions } = draft.shared;
  const firstDay = dayOf(new Date().toISOString());
  const lastDay = lastDayAllowed(isDay(observedAt) ? observedAt : today, place.interval);
  const put = (part: Partial<PracticalDraft['shared']>) =>
    change((now) => ({ ...now, shared: { ...now.shared, ...part } }));
  return (
    <section aria-labelledby="part-decision">
      <h2 id="part-decision" tabIndex={-1}>
        {say('decision.on', { who: place.who.name })}
      </h2>
      {units.length === 0 && <p id="units">{say('nothing-touched')}</p>}
      {units.length > 0 && <p>{say.count('finish.say', units.length)}</p>}
      {open.length > 1 && stoppedIn(draft) === null && (
        <p>
          <button
            class="button"
            type="button"
            onClick={() => change((now) => proposeAll(now, units, place))}
          >
            {say('propose')}
          </button>
        </p>
      )}
      <ol class="finish">
        {units.map((unit) => (
          <UnitDecision
            key={unit.id}
            unit={unit}
            draft={draft}
            place={place}
            change={change}
            go={go}
          />
        ))}
      </ol>
      <div class="field">
        <label for="validUntil">{say('until')}</label>
        <p class="hint" id="validUntil.hint">
          {say('until.hint', { months: place.interval.months })}{' '}
          <span lang={contentLang()}>{place.interval.source}</span>
        </p>
        <input
          id="validUntil"
          type="date"
          min={firstDay}
          max={lastDay}
          aria-describedby="validUntil.hint"
          value={validUntil}
          onInput={(event) => put({ validUntil: event.currentTarget.value })}
        />
      </div>
      <div class="field">
        <label for="conditions">{say('conditions')}</label>
        <p class="hint" id="conditions.hint">
          {say('conditions.hint')}
        </p>
        <textarea
          id="conditions"
          rows={3}
          autocapitalize="sentences"
          aria-describedby="conditions.hint"
          value={conditions}
          onInput={(event) => put({ conditions: event.currentTarget.value })}
        />
      </div>
    </section>
  );
}
