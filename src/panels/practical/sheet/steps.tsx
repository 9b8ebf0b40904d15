import { useEffect, useRef } from 'preact/hooks';
import type { Unit } from '../../../competence/index.ts';
import {
  isTouched,
  type PracticalDraft,
  progressOf,
  stoppedIn,
} from '../../../competence/sheet/index.ts';
import { contentLang, say } from '../say.ts';

/** Where in the sheet somebody is: what is asked once, a unit by its id, or the end. */
export type Step = 'machine' | 'finish' | (string & {});

type Props = {
  readonly units: readonly Unit[];
  readonly draft: PracticalDraft;
  readonly at: Step;
  readonly go: (step: Step) => void;
};

function sayProgress(draft: PracticalDraft, unit: Unit): string {
  if (stoppedIn(draft) === unit.id) return say('step.stopped');
  if (!isTouched(draft, unit.id)) return say('step.untouched');
  return say('step.seen', progressOf(draft, unit));
}

/** The way through a practical, along the top: every unit this work needs, and how far each has come. */
export function Steps({ units, draft, at, go }: Props) {
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    const here = list.current?.querySelector<HTMLElement>('[aria-current]');
    here?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [at]);
  const button = (step: Step, words: preact.ComponentChildren, state: string) => (
    <li key={step}>
      <button
        type="button"
        class="step"
        aria-current={at === step ? 'step' : undefined}
        onClick={() => go(step)}
      >
        <span class="step-name">{words}</span>
        <span class="step-state">{state}</span>
      </button>
    </li>
  );
  const { place, material } = draft.shared;
  const isShared = place.trim() !== '' && material.trim() !== '';
  return (
    <nav class="steps" aria-label={say('steps')}>
      <ol ref={list}>
        {button('machine', say('step.machine'), say(isShared ? 'step.filled' : 'step.open'))}
        {units.map((unit) =>
          button(
            unit.id,
            <span lang={contentLang()}>
              {unit.number}. {unit.title}
            </span>,
            sayProgress(draft, unit),
          ),
        )}
        {button('finish', say('step.finish'), '')}
      </ol>
    </nav>
  );
}
