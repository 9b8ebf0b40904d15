import { englishOnly, nameIn } from '../../../words/spoken.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk } from '../work/desk.ts';
import { focusSoon } from '../work/focus-soon.ts';
import type { Choices, Claim } from '../work/protocol.ts';
import { say, sayIf } from '../work/words.ts';
import { ClaimForm } from './claim-form.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** What the trainee has written down as wrong, and the form to write down more. */
export function FaultPaper({ attempt, desk }: Props) {
  const choices = attempt.started.value?.choices;
  if (choices === undefined) return null;
  const claims = attempt.claims.value;
  const isWorking = attempt.phase.value === 'working';
  return (
    <>
      <h2>{say('faults.title')}</h2>
      {claims.length === 0 ? (
        <p class="hint">{say('faults.none')}</p>
      ) : (
        <ol class="bench-claims">
          {claims.map((claim) => (
            <li key={`${claim.part} ${claim.fault}`}>
              <ClaimWords choices={choices} claim={claim} />
              {isWorking && (
                <button
                  type="button"
                  class="button button--quiet"
                  aria-label={say('faults.take-back-one', { fault: faultTitle(choices, claim) })}
                  onClick={() => {
                    attempt.takeBack(claim);
                    desk.speak(say('faults.taken-back'));
                    focusSoon('bench-write');
                  }}
                >
                  {say('faults.take-back')}
                </button>
              )}
            </li>
          ))}
        </ol>
      )}
      {isWorking && <ClaimForm attempt={attempt} desk={desk} choices={choices} />}
    </>
  );
}

const titleIn = (list: readonly { readonly id: string; readonly title: string }[], id: string) =>
  list.find((one) => one.id === id)?.title ?? id;

/** The catalogue of faults is English; the parts and what to do have names in the language of the page. */
export const nameRemedy = (id: string, english: string): string =>
  nameIn('fault-words', `remedy.${id}`, english);
export const namePart = (part: string, english: string): string =>
  nameIn('fault-words', `part.${part}`, english);

export const faultTitle = (choices: Choices, claim: Claim): string =>
  titleIn(choices.faults, claim.fault);

export const partTitle = (choices: Choices, part: string): string =>
  namePart(part, choices.parts.find((one) => one.part === part)?.title ?? part);

function ClaimWords({ choices, claim }: { readonly choices: Choices; readonly claim: Claim }) {
  return (
    <p>
      <strong>{partTitle(choices, claim.part)}:</strong>{' '}
      <span lang={englishOnly()}>{faultTitle(choices, claim)}</span>
      <span class="quiet">
        {nameRemedy(claim.remedy, titleIn(choices.remedies, claim.remedy))}
        {claim.confidence !== undefined &&
          `, ${sayIf(`sure.${claim.confidence}`, '').toLowerCase()}`}
      </span>
    </p>
  );
}
