import { useEffect, useState } from 'preact/hooks';
import { timeIn } from '../../../words/index.ts';
import { here, pageLanguage } from '../../../words/spoken.ts';
import { type DeviceLabel, makeReady, type Readiness, readinessOf } from '../../signing/index.ts';
import { Mark } from '../mark.tsx';
import { say, sayDay, sayRefusal } from '../say.ts';
import { SignForm } from '../sign-form.tsx';

/** A clock further off than this is told, seconds. */
const CLOCK_NOTICE = 300;

type Line = { readonly key: string; readonly done: boolean; readonly text: string };

function sayClock(ahead: number | null): Line {
  if (ahead === null) return { key: 'clock', done: false, text: say('ready.clock.unknown') };
  if (Math.abs(ahead) <= CLOCK_NOTICE) {
    return { key: 'clock', done: true, text: say('ready.clock') };
  }
  const minutes = Math.round(Math.abs(ahead) / 60);
  const text = say.count(ahead > 0 ? 'ready.clock.ahead' : 'ready.clock.behind', minutes);
  return { key: 'clock', done: false, text };
}

function linesOf(ready: Readiness): Line[] {
  const { kitAt } = ready;
  const when = kitAt === null ? '' : `${sayDay(kitAt)}, ${timeIn(pageLanguage(), kitAt)} UTC`;
  return [
    { key: 'page', done: ready.page === 'kept', text: say(`ready.page.${ready.page}`) },
    { key: 'kit', done: ready.kit === 'kept', text: say(`ready.kit.${ready.kit}`, { when }) },
    {
      key: 'key',
      done: ready.key === 'enrolled',
      text: say(ready.key === 'enrolled' ? 'ready.key' : 'ready.key.none'),
    },
    {
      key: 'password',
      done: ready.password === 'kept',
      text: say(`ready.password.${ready.password}`),
    },
    { key: 'store', done: ready.store === 'persistent', text: say(`ready.store.${ready.store}`) },
    sayClock(ready.clockAheadSeconds),
  ];
}

type Props = { readonly trainer: { readonly name: string; readonly email: string } };

/** Whether this device can be taken to the machine without a network, line by line, and the way to make it so. */
export function Ready({ trainer }: Props) {
  const [ready, setReady] = useState<Readiness | null>(null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    void readinessOf().then(setReady);
  }, []);
  const make = async (password: string, device: DeviceLabel) => {
    setBusy(true);
    setProblem(null);
    const reply = await makeReady({ password, device });
    setBusy(false);
    if (reply.ok) setReady(reply.value);
    else setProblem(sayRefusal(reply.message));
  };
  if (ready === null) return null;
  const lines = linesOf(ready);
  // a browser may never promise to keep what it stores, and a clock may be off: neither stops the work
  const isReady = lines.slice(0, 4).every(({ done }) => done);
  return (
    <section aria-labelledby="ready">
      <h2 id="ready">{say('ready')}</h2>
      <p role="status">
        <strong>{say(isReady ? 'ready.yes' : 'ready.no')}</strong>
      </p>
      <ul class="reached">
        {lines.map(({ key, done, text }) => (
          <li key={key} data-done={done ? '' : undefined}>
            <Mark kind={done ? 'safe' : 'none'} />
            <span>{text}</span>
          </li>
        ))}
      </ul>
      <details open={!isReady}>
        <summary>{say('ready.make')}</summary>
        <p>{say('ready.make.say')}</p>
        <SignForm
          trainer={trainer}
          isNewDevice={ready.key !== 'enrolled'}
          action={say('ready.do')}
          busy={busy}
          problem={problem}
          sign={(password, device) => void make(password, device)}
        />
      </details>
      <p>
        <a href={here('/devices')}>{say('ready.devices')}</a>
      </p>
    </section>
  );
}
