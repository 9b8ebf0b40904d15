import { useEffect, useRef, useState } from 'preact/hooks';
import { type DeviceLabel, guessDevice, whyNoSigning } from '../signing/index.ts';
import { say } from './say.ts';

const DEVICES: readonly DeviceLabel[] = ['tablet', 'phone', 'laptop', 'desktop', 'other'];

type Props = {
  readonly trainer: { readonly name: string; readonly email: string };
  /** this device has no enrolled key yet; not asked when sending again */
  readonly isNewDevice: boolean;
  readonly action: string;
  readonly busy: boolean;
  readonly problem: string | null;
  readonly sign: (password: string, device: DeviceLabel) => void;
  /** signs with a passkey in place of the password; left out where there is none, or no site to ask it */
  readonly signByPasskey?: ((device: DeviceLabel) => void) | undefined;
};

/** Sign in again at the moment of signing, so that a tablet left open signs nothing by itself. */
export function SignForm(props: Props) {
  const { trainer, isNewDevice, action, busy, problem, sign, signByPasskey } = props;
  const [password, setPassword] = useState('');
  const [device, setDevice] = useState<DeviceLabel>(guessDevice);
  const [cannot, setCannot] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    whyNoSigning().then(setCannot);
  }, []);
  useEffect(() => {
    if (problem !== null) field.current?.focus();
  }, [problem]);
  if (cannot !== null) {
    return (
      <p class="problem" role="alert">
        {cannot}
      </p>
    );
  }
  return (
    <form
      class="sign-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (password === '') field.current?.focus();
        else sign(password, device);
        setPassword('');
      }}
    >
      <p>{say('again-as', { name: trainer.name, email: trainer.email })}</p>
      <input type="hidden" name="username" autocomplete="username" value={trainer.email} />
      {isNewDevice && (
        <div class="field">
          <label for="device">{say('device')}</label>
          <p class="hint" id="device.hint">
            {say('device.hint')}
          </p>
          <select
            id="device"
            aria-describedby="device.hint"
            value={device}
            onChange={(event) => setDevice(event.currentTarget.value as DeviceLabel)}
          >
            {DEVICES.map((value) => (
              <option value={value} key={value}>
                {say(`device.${value}`)}
              </option>
            ))}
          </select>
        </div>
      )}
      <div class="field">
        <label for="password">{say('password')}</label>
        {problem !== null && (
          <span class="problem" role="alert" id="password.problem">
            {problem}
          </span>
        )}
        <input
          id="password"
          ref={field}
          type="password"
          autocomplete="current-password"
          maxLength={128}
          required
          aria-invalid={problem !== null ? 'true' : undefined}
          aria-describedby={problem !== null ? 'password.problem' : undefined}
          value={password}
          onInput={(event) => setPassword(event.currentTarget.value)}
        />
      </div>
      <button class="button button--main button--glove" type="submit" disabled={busy}>
        {busy ? say('signing') : action}
      </button>
      {signByPasskey !== undefined && 'PublicKeyCredential' in window && (
        <button
          class="button button--glove"
          type="button"
          disabled={busy}
          onClick={() => signByPasskey(device)}
        >
          {say('sign-by-passkey')}
        </button>
      )}
    </form>
  );
}
