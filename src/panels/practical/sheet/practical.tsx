import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import {
  addDays,
  changeUnit,
  type Draft,
  draftOfUnit,
  emptyPractical,
  LONGEST_WAIT_DAYS,
  lastDayAllowed,
  NOT_HEARD,
  type PracticalDraft,
  progressOf,
  stoppedIn,
  touchedUnits,
} from '../../../competence/sheet/index.ts';
import { newSignoffId } from '../../signing/index.ts';
import { KeepingLine } from '../keeping-line.tsx';
import { MachineAndStock } from '../machine-and-stock.tsx';
import { say } from '../say.ts';
import { useShownIn } from '../shown-in.ts';
import { useKeptDraft } from '../use-kept-draft.ts';
import { checkPractical, contextOf, localToday, type ReadyUnit } from './check-practical.ts';
import { findOldDrafts } from './find-old-drafts.ts';
import { Finish } from './finish.tsx';
import { Hear } from './hear.tsx';
import { OutcomeAll } from './outcome-all.tsx';
import { type Place, sheetKeyOf, titleOf } from './place.ts';
import { ReviewAll, type Signed } from './review-all.tsx';
import { type Step, Steps } from './steps.tsx';
import { StopPanel } from './stop-panel.tsx';
import { UnitPart } from './unit-part.tsx';
import type { WrittenUnit } from './write-units.ts';

/** Moves to a field and opens what hides it. */
function goTo(field: string): void {
  const target = document.getElementById(field);
  target?.closest('details')?.setAttribute('open', '');
  target?.focus();
  target?.scrollIntoView({ block: 'center' });
}

const headingOf = (step: Step): string =>
  step === 'machine' ? 'part-machine' : step === 'finish' ? 'part-decision' : 'part-unit';

type Stage =
  | { readonly at: 'sheet' }
  | { readonly at: 'hear' | 'review'; readonly ready: readonly ReadyUnit[] }
  | { readonly at: 'signed'; readonly outcome: Signed; readonly written: readonly WrittenUnit[] };

/** A practical at the machine, from the first look to the signature. */
export function Practical({ place }: { readonly place: Place }) {
  const shownIn = useShownIn();
  const today = useMemo(localToday, []);
  const keep = {
    sheetKey: sheetKeyOf(place),
    title: titleOf(place),
    path: `${window.location.pathname}${window.location.search}`,
  };
  const fresh = useMemo(
    () => () =>
      emptyPractical(newSignoffId(), {
        today,
        place: '',
        blade: place.blade,
        unit: shownIn,
        validUntil: lastDayAllowed(today, place.interval),
      }),
    [today],
  );
  const { draft, keeping, restoredFrom, change, startAfresh } = useKeptDraft<PracticalDraft>(
    keep,
    fresh,
    () => findOldDrafts(place, fresh),
  );
  const [step, setStep] = useState<Step>('machine');
  const [stage, setStage] = useState<Stage>({ at: 'sheet' });
  const [isStopOpen, setStopOpen] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const wanted = useRef<string | null>(null);
  const isFirst = useRef(true);

  const go = (to: Step, field: string | null = null) => {
    wanted.current = field;
    setStep(to);
  };
  useEffect(() => {
    if (isFirst.current) {
      isFirst.current = false;
      return;
    }
    goTo(wanted.current ?? headingOf(step));
    // the steps at the top of the screen: what is to be seen stands right under them
    if (wanted.current === null) document.querySelector('.steps')?.scrollIntoView();
    wanted.current = null;
  }, [step, stage.at]);

  // what was refused may be mended now: the sentence goes at the next keystroke
  const put = (make: (now: PracticalDraft) => PracticalDraft) => {
    setProblem(null);
    // what the person agreed to is no longer what stands here: they are asked again
    change((now) => ({ ...make(now), heard: NOT_HEARD }));
  };
  const { units } = place;
  const touched = touchedUnits(draft, units);
  const at = units.findIndex(({ id }) => id === step);
  const [first] = units;

  const review = () => {
    const checked = checkPractical(draft, place, localToday());
    if (checked.ok) {
      setProblem(null);
      return setStage({ at: 'hear', ready: checked.units });
    }
    const { unit, field, message } = checked.problem;
    setProblem(message);
    const isFinish = /^(decision|validUntil|conditions|units)/.test(field);
    const target: Step = unit ?? (isFinish ? 'finish' : 'machine');
    const isStop = field === 'stopNote';
    if (isStop || target === step) goTo(field);
    else go(target, field);
  };
  const next = () => {
    if (step === 'machine') return go(first?.id ?? 'finish');
    go(units[at + 1]?.id ?? 'finish');
  };

  if (stage.at === 'hear') {
    return (
      <Hear
        ready={stage.ready}
        draft={draft}
        place={place}
        put={(heard) => change((now) => ({ ...now, heard }))}
        next={() => setStage({ at: 'review', ready: stage.ready })}
        back={() => setStage({ at: 'sheet' })}
      />
    );
  }
  if (stage.at === 'review') {
    return (
      <ReviewAll
        ready={stage.ready}
        draft={draft}
        place={place}
        keep={keep}
        onSigned={(outcome, written) => setStage({ at: 'signed', outcome, written })}
        back={() => setStage({ at: 'sheet' })}
      />
    );
  }
  if (stage.at === 'signed') {
    const another = () => {
      startAfresh();
      setStep('machine');
      setStage({ at: 'sheet' });
    };
    return <OutcomeAll {...stage} place={place} another={another} />;
  }
  const unit = units[at];
  const stopped = stoppedIn(draft);
  const counted = touched.map((one) => progressOf(draft, one));
  const sum = (field: 'seen' | 'criteria' | 'read' | 'settings') =>
    counted.reduce((total, one) => total + one[field], 0);
  return (
    <>
      <KeepingLine keeping={keeping} restoredFrom={restoredFrom} startAfresh={startAfresh} />
      <Steps units={units} draft={draft} at={step} go={go} />
      <StopPanel units={units} draft={draft} change={put} isOpen={isStopOpen} />
      {step === 'machine' && first !== undefined && (
        <section aria-labelledby="part-machine">
          <h2 id="part-machine" tabIndex={-1}>
            {say('machine')}
          </h2>
          <MachineAndStock
            draft={draftOfUnit(draft, first.id)}
            context={contextOf(first, place, today)}
            earliest={addDays(today, -LONGEST_WAIT_DAYS)}
            change={(part: Partial<Draft>) => put((now) => changeUnit(now, first.id, part))}
          />
        </section>
      )}
      {unit !== undefined && (
        <UnitPart
          key={unit.id}
          unit={unit}
          draft={draft}
          place={place}
          today={today}
          shownIn={shownIn}
          change={put}
        />
      )}
      {step === 'finish' && (
        <Finish draft={draft} place={place} today={today} change={put} go={go} />
      )}
      <div class="review-bar">
        {problem !== null && (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
        <button
          class="button button--glove button--stop"
          type="button"
          aria-expanded={isStopOpen || stopped !== null}
          onClick={() => setStopOpen(!isStopOpen)}
        >
          {say('stop.open')}
        </button>
        <p class="review-count">
          {say('count', {
            seen: sum('seen'),
            criteria: sum('criteria'),
            read: sum('read'),
            settings: sum('settings'),
          })}
        </p>
        {step !== 'finish' && (
          <button class="button button--glove" type="button" onClick={next}>
            {say('next')}
          </button>
        )}
        <button
          id="review"
          class="button button--main button--glove"
          type="button"
          onClick={step === 'finish' || stopped !== null ? review : () => go('finish')}
        >
          {say(step === 'finish' || stopped !== null ? 'review' : 'to-finish')}
        </button>
      </div>
    </>
  );
}
