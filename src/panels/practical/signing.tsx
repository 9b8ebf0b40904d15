import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { type Settled, type Sheet, writeStatement } from '../../competence/sheet/index.ts';
import { withMeaning } from '../../records/check/index.ts';
import type { Statement } from '../../records/index.ts';
import { here } from '../../words/spoken.ts';
import {
  type DeviceLabel,
  isDeviceNew,
  newSignoffId,
  type SignOutcome,
  sendAgain,
  signPractical,
  statementHashOf,
  type Unsent,
  unsentFor,
} from '../signing/index.ts';
import { Outcome } from './outcome.tsx';
import { Review } from './review.tsx';
import { say, sayRefusal } from './say.ts';
import type { SheetProps } from './sheet-props.ts';
import { SignForm } from './sign-form.tsx';

type Ready = { readonly sheet: Sheet; readonly settled: readonly Settled[] };

type Props = SheetProps & {
  readonly keep: { readonly sheetKey: string; readonly title: string; readonly path: string };
  /** the checked sheet once the trainer asked to review it */
  readonly ready: Ready | null;
  readonly back: () => void;
  readonly onDone: () => void;
  /** the sheet itself, shown while nothing is under review */
  readonly children: ComponentChildren;
};

function write({ sheet, settled }: Ready, props: Props): Statement {
  const { who, trainer, bench, unit, limits, org } = props;
  return withMeaning(
    writeStatement(sheet, settled, unit, {
      signoff: newSignoffId(),
      org,
      who: { person: who.person, nameHash: who.nameHash },
      trainer: { person: trainer.person, nameHash: trainer.nameHash },
      bench: { id: bench.id, asset: bench.asset, guardKind: bench.guardKind },
      limits: { set: limits.set, version: limits.version },
    }),
  );
}

/** Review, sign, send: from a checked sheet to a logged record, and back to the sheet on any refusal. */
export function Signing(props: Props) {
  const { keep, ready, back, onDone, trainer, who, children } = props;
  const [outcome, setOutcome] = useState<SignOutcome | null>(null);
  const [unsent, setUnsent] = useState<Unsent | null>(null);
  const [busy, setBusy] = useState(false);
  const [isNewDevice, setNewDevice] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const statement = useMemo(() => (ready === null ? null : write(ready, props)), [ready]);

  useEffect(() => {
    unsentFor(trainer.person, keep.sheetKey)
      .then((found) => setUnsent(found ?? null))
      .catch(() => setUnsent(null));
    isDeviceNew(trainer.person)
      .then(setNewDevice)
      .catch(() => setNewDevice(true));
  }, []);
  useEffect(() => {
    if (ready === null) return;
    setOutcome(null);
    heading.current?.focus();
    window.scrollTo({ top: 0 });
  }, [ready]);

  const settle = async (work: Promise<SignOutcome>) => {
    setBusy(true);
    const reached = await work.catch(
      (error: unknown): SignOutcome => ({
        state: 'refused',
        path: '',
        message: say('could-not', {
          reason: error instanceof Error ? error.message : String(error),
        }),
      }),
    );
    setBusy(false);
    setOutcome(reached);
    if (reached.state === 'signed') setUnsent(reached.unsent);
    if (reached.state === 'logged') {
      setUnsent(null);
      onDone();
    }
  };
  const sign = (password: string, device: DeviceLabel) => {
    if (statement === null || ready === null) return;
    void settle(signPractical({ statement, sheet: ready.sheet, ...keep, password, device }));
  };
  const problem = outcome?.state === 'refused' ? sayRefusal(outcome.message) : null;
  const { person, bench, work } = props.subject;
  const nextPath = here(`/practical/new?person=${person}&bench=${bench}&work=${work}`);

  if (outcome?.state === 'logged') {
    const isSignedOff = statement === null || statement.decision === 'signed-off';
    return (
      <Outcome outcome={outcome} isSignedOff={isSignedOff} who={who.name} nextPath={nextPath} />
    );
  }
  if (unsent !== null) {
    const message = outcome?.state === 'signed' ? outcome.message : say('not-there');
    return (
      <>
        <Outcome
          outcome={{ state: 'signed', unsent, message }}
          isSignedOff={false}
          who={who.name}
          nextPath={nextPath}
        />
        <SignForm
          trainer={trainer}
          isNewDevice={false}
          action={say('send-again')}
          busy={busy}
          problem={problem}
          sign={(password) => void settle(sendAgain(unsent, password))}
        />
      </>
    );
  }
  if (statement === null || ready === null) return <>{children}</>;
  return (
    <section aria-labelledby="review-title">
      <h2 id="review-title" tabIndex={-1} ref={heading}>
        {say('review')}
      </h2>
      <Review
        statement={statement}
        names={{ who: who.name, trainer: trainer.name }}
        benchTitle={props.bench.title}
        workName={props.workName}
        instruments={props.instruments}
        limitsTitle={props.limits.title}
        titles={Object.fromEntries(ready.settled.map(({ signed, title }) => [signed.limit, title]))}
        hash={statementHashOf(statement)}
      />
      <SignForm
        trainer={trainer}
        isNewDevice={isNewDevice}
        action={say('sign-as', { name: trainer.name })}
        busy={busy}
        problem={problem}
        sign={sign}
      />
      <p class="actions">
        <button class="button" type="button" onClick={back} disabled={busy}>
          {say('back')}
        </button>
      </p>
    </section>
  );
}
