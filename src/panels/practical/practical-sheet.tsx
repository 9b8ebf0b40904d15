import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import {
  addDays,
  checkDraft,
  type Draft,
  type DraftContext,
  dayOf,
  emptyDraft,
  isDay,
  LONGEST_WAIT_DAYS,
  lastDayAllowed,
  readBladeOf,
  readingsOf,
  type Settled,
  type Sheet,
  tellBlockers,
} from '../../competence/sheet/index.ts';
import { Criteria } from './criteria.tsx';
import { DecisionPart } from './decision.tsx';
import { KeepingLine } from './keeping-line.tsx';
import { MachineAndStock } from './machine-and-stock.tsx';
import { Readings } from './readings.tsx';
import { say, sayProblem } from './say.ts';
import { type SheetProps, sheetKeyOf, sheetTitleOf } from './sheet-props.ts';
import { useShownIn } from './shown-in.ts';
import { Signing } from './signing.tsx';
import { Stops } from './stops.tsx';
import { useKeptDraft } from './use-kept-draft.ts';
import { useVerdicts } from './use-verdicts.ts';

/** The day by the trainer's own calendar. */
function localToday(): string {
  const now = new Date();
  return dayOf(new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString());
}

/** Moves to a field and opens what hides it. */
function goTo(field: string): void {
  const target = document.getElementById(field);
  target?.closest('details')?.setAttribute('open', '');
  target?.focus();
  target?.scrollIntoView({ block: 'center' });
}

type Ready = { readonly sheet: Sheet; readonly settled: readonly Settled[] };

/** The field to go to, and one sentence in the language of the page. */
type Problem = { readonly field: string; readonly message: string };

/** The practical sheet: what a trainer fills in at the machine, up to the review. */
export function PracticalSheet(props: SheetProps) {
  const { subject, unit, bench, who, interval } = props;
  const shownIn = useShownIn();
  const today = useMemo(localToday, []);
  const lastDayOf = useMemo(
    () => (observed: string) => lastDayAllowed(observed, interval),
    [interval],
  );
  const context: DraftContext = {
    subject,
    unit,
    today,
    firstDay: dayOf(new Date().toISOString()),
    lastDayOf,
    instruments: props.instruments,
    blade: bench.blade,
  };
  const keep = {
    sheetKey: sheetKeyOf(props),
    title: sheetTitleOf(props),
    path: `${window.location.pathname}${window.location.search}`,
  };
  const fresh = useMemo(
    () => () =>
      emptyDraft({
        today,
        place: '',
        blade: bench.blade,
        unit: shownIn,
        validUntil: lastDayOf(today),
      }),
    [today],
  );
  const { draft, keeping, restoredFrom, change: put, startAfresh } = useKeptDraft(keep, fresh);
  const verdicts = useVerdicts(draft, context);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [ready, setReady] = useState<Ready | null>(null);
  // what was refused may be mended now: the sentence goes at the next keystroke
  const change = (part: Partial<Draft>) => {
    setProblem(null);
    put(part);
  };
  const problemLine = useRef<HTMLParagraphElement>(null);

  const read = readingsOf(draft, unit.settings, props.instruments).map(({ setting }) => setting);
  const blockers = tellBlockers({
    unit,
    answerOf: (id) => draft.criteria[id]?.result ?? null,
    read,
    stops: draft.stops,
    settled: verdicts.settled,
    diameter: readBladeOf(draft)?.diameter ?? null,
    largestBlade: bench.largestBlade,
  }).map(sayProblem);
  const stopped = draft.stops.length > 0;
  const seen = unit.criteria.filter(({ id }) => draft.criteria[id]?.result != null).length;

  const refuse = (found: Problem) => {
    setProblem(found);
    goTo(found.field);
  };
  const review = () => {
    const checked = checkDraft(draft, context);
    if (!checked.ok) {
      const { field, told } = checked.problem;
      return refuse({ field, message: sayProblem(told) });
    }
    if (verdicts.state !== 'current' && checked.sheet.readings.length > 0) {
      return refuse({
        field: 'review',
        message: say('not-judged', { why: verdicts.message }).trimEnd(),
      });
    }
    const [first] = blockers;
    if (checked.sheet.decision === 'signed-off' && first !== undefined) {
      return refuse({ field: 'decision', message: say('must-be-not-yet', { why: first }) });
    }
    setProblem(null);
    setReady({ sheet: checked.sheet, settled: verdicts.settled });
  };

  useEffect(() => {
    if (problem !== null) problemLine.current?.scrollIntoView({ block: 'nearest' });
  }, [problem]);

  return (
    <div class="practical glove">
      <Signing
        {...props}
        keep={keep}
        ready={ready}
        back={() => setReady(null)}
        onDone={startAfresh}
      >
        <KeepingLine keeping={keeping} restoredFrom={restoredFrom} startAfresh={startAfresh} />
        <section aria-labelledby="part-machine">
          <h2 id="part-machine">{say('machine')}</h2>
          <MachineAndStock
            draft={draft}
            context={context}
            earliest={addDays(today, -LONGEST_WAIT_DAYS)}
            change={change}
          />
        </section>
        <Stops unit={unit} draft={draft} change={change} />
        {!stopped && (
          <>
            <section aria-labelledby="part-watch">
              <h2 id="part-watch">{say('watch')}</h2>
              <Criteria unit={unit} draft={draft} change={change} />
            </section>
            {unit.settings.length > 0 && (
              <section aria-labelledby="part-measure">
                <h2 id="part-measure">{say('measure')}</h2>
                <p>{say('limits', { title: props.limits.title })}</p>
                <Readings
                  draft={draft}
                  context={context}
                  verdicts={verdicts}
                  shownIn={shownIn}
                  change={change}
                />
              </section>
            )}
          </>
        )}
        <section aria-labelledby="part-decision">
          <h2 id="part-decision">{say('decision')}</h2>
          <DecisionPart
            draft={draft}
            blockers={blockers}
            firstDay={context.firstDay}
            lastDay={lastDayOf(isDay(draft.observedAt) ? draft.observedAt : today)}
            interval={interval}
            who={who.name}
            change={change}
          />
        </section>
        <div class="review-bar">
          {problem !== null && (
            <p class="problem" role="alert" ref={problemLine}>
              {problem.message}
            </p>
          )}
          <p class="review-count">
            {say('count', {
              seen,
              criteria: unit.criteria.length,
              read: read.length,
              settings: unit.settings.length,
            })}
          </p>
          <button
            id="review"
            class="button button--main button--glove"
            type="button"
            onClick={review}
          >
            {say('review')}
          </button>
        </div>
      </Signing>
    </div>
  );
}
