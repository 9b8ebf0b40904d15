import { useEffect, useRef, useState } from 'preact/hooks';
import type { PracticalDraft } from '../../../competence/sheet/index.ts';
import {
  type DeviceLabel,
  isDeviceNew,
  type SignAllOutcome,
  signAll,
  statementHashOf,
  whereConfirmed,
} from '../../signing/index.ts';
import { Review } from '../review.tsx';
import { contentLang, say, sayLimitSet, sayRefusal } from '../say.ts';
import { SignForm } from '../sign-form.tsx';
import type { ReadyUnit } from './check-practical.ts';
import { nameLimit } from './judge-unit.ts';
import { type Place, sayWork } from './place.ts';
import { type WrittenUnit, writeUnits } from './write-units.ts';

export type Signed = Exclude<SignAllOutcome, { state: 'refused' }>;

type Props = {
  readonly ready: readonly ReadyUnit[];
  readonly draft: PracticalDraft;
  readonly place: Place;
  readonly keep: { readonly sheetKey: string; readonly title: string; readonly path: string };
  readonly onSigned: (outcome: Signed, written: readonly WrittenUnit[]) => void;
  readonly back: () => void;
};

/** What is signed must be on the paper: everything folded is opened before it is printed. */
function openAll(): void {
  for (const one of document.querySelectorAll<HTMLDetailsElement>('.review-unit')) one.open = true;
}

/** Every statement just as it will be signed, and one password for all of them. */
export function ReviewAll({ ready, draft, place, keep, onSigned, back }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [written, setWritten] = useState<readonly WrittenUnit[] | null>(null);
  const [confirmed, setConfirmed] = useState<'site' | 'device'>('site');
  const [isNewDevice, setNewDevice] = useState(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const { trainer } = place.kit;

  const write = async () => {
    const where = await whereConfirmed();
    setConfirmed(where);
    setNewDevice(where === 'site' && (await isDeviceNew(trainer.person).catch(() => true)));
    setWritten(writeUnits(ready, draft, place, where));
  };
  useEffect(() => {
    heading.current?.focus();
    window.scrollTo({ top: 0 });
    void write();
    addEventListener('beforeprint', openAll);
    return () => removeEventListener('beforeprint', openAll);
  }, []);

  const sign = async (password: string, device: DeviceLabel, by: 'password' | 'passkey') => {
    if (written === null) return;
    setBusy(true);
    setProblem(null);
    // the network may have come or gone while the trainer was reading: what is signed says where
    const where = await whereConfirmed();
    if (where !== confirmed) {
      setBusy(false);
      await write();
      return setProblem(say(where === 'site' ? 'now-on-site' : 'now-on-device'));
    }
    const outcome = await signAll({
      units: written.map(({ statement, sheetNow }) => ({ statement, sheet: sheetNow })),
      sheetKeys: [keep.sheetKey],
      title: keep.title,
      path: keep.path,
      password,
      by,
      device,
    });
    setBusy(false);
    if (outcome.state === 'refused') setProblem(sayRefusal(outcome.message));
    else onSigned(outcome, written);
  };

  return (
    <section aria-labelledby="review-title">
      <h2 id="review-title" tabIndex={-1} ref={heading}>
        {say('review')}
      </h2>
      {/* hidden on the screen, where the button below says it; paper must say it by itself */}
      <p class="not-signed-mark">{say('review.not-signed')}</p>
      {written === null ? (
        <p role="status">{say('review.writing')}</p>
      ) : (
        <>
          <p>{say(confirmed === 'site' ? 'review.on-site' : 'review.on-device')}</p>
          {written.map(({ unit, statement, settled }) => (
            <details class="review-unit" key={unit.id} open={written.length === 1}>
              <summary>
                <span lang={contentLang()}>
                  {unit.number}. {unit.title}
                </span>
                : {say(statement.decision === 'signed-off' ? 'sign-off' : 'not-yet')}
              </summary>
              <Review
                statement={statement}
                names={{ who: place.who.name, trainer: trainer.name }}
                benchTitle={place.bench.title}
                workName={sayWork(place.work)}
                instruments={place.instruments}
                limitsTitle={sayLimitSet(place.set)}
                titles={Object.fromEntries(
                  settled.map((one) => [one.signed.limit, nameLimit(one)]),
                )}
                hash={statementHashOf(statement)}
              />
            </details>
          ))}
          <SignForm
            trainer={trainer}
            isNewDevice={isNewDevice}
            action={say('sign-as', { name: trainer.name })}
            busy={busy}
            problem={problem}
            sign={(password, device) => void sign(password, device, 'password')}
            signByPasskey={
              confirmed === 'site' && trainer.passkeys === true
                ? (device) => void sign('', device, 'passkey')
                : undefined
            }
          />
        </>
      )}
      <p class="actions">
        <button class="button" type="button" onClick={back} disabled={busy}>
          {say('back')}
        </button>
        <button class="button button--quiet" type="button" onClick={() => window.print()}>
          {say('print')}
        </button>
      </p>
    </section>
  );
}
