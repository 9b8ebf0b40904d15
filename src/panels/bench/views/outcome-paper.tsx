import { englishOnly, here } from '../../../words/spoken.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { isPart } from '../work/parts.ts';
import type { Outcome, SaidClaim, SaidFault } from '../work/protocol.ts';
import { sayResult } from '../work/result-words.ts';
import { BeforehandResults } from './beforehand-results.tsx';
import { ChoiceResults } from './choice-results.tsx';
import { CutResults } from './cut-results.tsx';
import { Mark } from './mark.tsx';
import { ReadingResults } from './reading-results.tsx';
import { SettingResults } from './setting-results.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** What the server made of it: what would have hurt somebody first, then what was found and missed. */
export function OutcomePaper({ attempt, desk }: Props) {
  const outcome = attempt.outcome.value;
  const task = attempt.started.value?.task;
  if (outcome === null || task === undefined) return null;
  return (
    <div class="bench-outcome">
      <h2 id="bench-result" tabIndex={-1}>
        {sayResult('outcome.title')}
      </h2>
      <p class="bench-score">
        <strong>{sayResult('outcome.score', { score: outcome.score })}</strong>
        <span>{sayResult(outcome.fit ? 'outcome.fit' : 'outcome.not-fit')}</span>
      </p>
      <p class="hint">{sayResult('outcome.caution')}</p>
      {!outcome.stored && <p class="hint">{sayResult('outcome.not-stored')}</p>}
      <Critical outcome={outcome} />
      {task.faults && <Faults outcome={outcome} desk={desk} />}
      <Told title={sayResult('outcome.left')} faults={outcome.left} desk={desk} />
      {outcome.settings.length > 0 && (
        <section>
          <h3>{sayResult('outcome.settings')}</h3>
          <SettingResults settings={outcome.settings} />
        </section>
      )}
      {outcome.choice && <ChoiceResults choice={outcome.choice} />}
      {outcome.predictions?.length > 0 && <BeforehandResults results={outcome.predictions} />}
      {outcome.cut && <CutResults cut={outcome.cut} />}
      {outcome.readings?.length > 0 && <ReadingResults readings={outcome.readings} />}
      <p class="bench-buttons">
        <button
          type="button"
          class="button button--main"
          onClick={() => {
            desk.putAway();
            void attempt.takeFresh();
          }}
        >
          {sayResult('outcome.again')}
        </button>
        {outcome.attempt !== null && outcome.stored && (
          <a class="button" href={here(`/attempts/${outcome.attempt}`)}>
            {sayResult('outcome.review')}
          </a>
        )}
        <a class="button button--quiet" href={here('/lessons/')}>
          {sayResult('outcome.lessons')}
        </a>
      </p>
    </div>
  );
}

function Critical({ outcome }: { readonly outcome: Outcome }) {
  if (outcome.critical.length === 0) return null;
  return (
    <section class="notice" data-kind="prohibition">
      <Mark kind="prohibition" />
      <div>
        <h3>{sayResult('outcome.critical')}</h3>
        <ul>
          {outcome.critical.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </div>
    </section>
  );
}

function Faults({ outcome, desk }: { readonly outcome: Outcome; readonly desk: Desk }) {
  const { found, missed, wrong } = outcome;
  const all = found.length + missed.length;
  return (
    <section>
      <h3>{sayResult('outcome.faults')}</h3>
      <p>
        {all === 0
          ? sayResult('outcome.no-faults')
          : sayResult('outcome.count', { found: found.length, all })}
      </p>
      <Told title={sayResult('outcome.missed')} faults={missed} desk={desk} />
      {wrong.length > 0 && (
        <>
          <h4>{sayResult('outcome.wrong')}</h4>
          <p class="hint">{sayResult('outcome.wrong-hint')}</p>
          <ul class="bench-named">
            {wrong.map((one) => (
              <li key={`${one.part} ${one.fault}`}>
                <span lang={englishOnly()}>{one.title}.</span>{' '}
                {one.kind === 'right-part' && sayResult('outcome.wrong-part')}{' '}
                <ShowMe desk={desk} fault={one} />
              </li>
            ))}
          </ul>
        </>
      )}
      {found.length > 0 && (
        <>
          <h4>{sayResult('outcome.found')}</h4>
          <ul class="bench-named">
            {found.map((one) => (
              <li key={one.fault}>
                <span lang={englishOnly()}>{one.title}</span> <ShowMe desk={desk} fault={one} />
                {!one.remedyRight && (
                  <p class="hint">{sayResult('outcome.wrong-remedy', { todo: one.todo })}</p>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

type ToldProps = {
  readonly title: string;
  readonly faults: readonly SaidFault[];
  readonly desk: Desk;
};

/** Faults told in full: how they look, why they matter, what to do. */
function Told({ title, faults, desk }: ToldProps) {
  if (faults.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul class="bench-missed">
        {faults.map((one) => (
          <li key={one.fault}>
            <strong lang={englishOnly()}>{one.title}</strong> <ShowMe desk={desk} fault={one} />
            <p lang={englishOnly()}>{one.looks}</p>
            <p lang={englishOnly()}>{one.why}</p>
            <p lang={englishOnly()}>{one.todo}</p>
          </li>
        ))}
      </ul>
    </>
  );
}

function ShowMe({ desk, fault }: { readonly desk: Desk; readonly fault: SaidClaim }) {
  const { part } = fault;
  if (desk.stage.value === null || !isPart(part)) return null;
  return (
    <button
      type="button"
      class="bench-link"
      aria-label={sayResult('outcome.show-one', { fault: fault.title })}
      onClick={() => {
        desk.view.value = 'picture';
        desk.stage.value?.lookAt(part);
        desk.stage.value?.highlight(part);
      }}
    >
      {sayResult('outcome.show')}
    </button>
  );
}
