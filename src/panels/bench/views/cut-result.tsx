import type { Bench, CutMoment, TrialCut } from '../../../bench/index.ts';
import {
  figuresOf,
  sayAssumed,
  sayCut,
  sayMoment,
  sayNext,
  sayStrip,
  sayWhy,
  seconds,
} from '../work/cut-words.ts';
import { Mark } from './mark.tsx';

type Props = { readonly bench: Bench; readonly cut: TrialCut };

const MARKS = {
  smooth: 'none',
  burning: 'warning',
  binding: 'warning',
  thrown: 'prohibition',
  stalled: 'warning',
  stopped: 'none',
} as const;

/** What came of the last cut: in words, why, who was in the way, and what it all rests on. */
export function CutResult({ bench, cut }: Props) {
  const mark = MARKS[cut.outcome];
  const strip = sayStrip(cut, bench);
  return (
    <section class="bench-cut-result" data-outcome={cut.outcome}>
      <h3 id="bench-cut-result" tabIndex={-1}>
        {mark !== 'none' && <Mark kind={mark} />}
        {sayCut(`outcome.${cut.outcome}`)}
      </h3>
      {sayWhy(cut, bench).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {strip.length > 0 && (
        <div class="bench-cut-strip">
          <h4>{sayCut('strip.name')}</h4>
          {strip.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </div>
      )}
      <p>
        <strong>{sayNext(cut)}</strong>
      </p>
      <Moments moments={cut.moments} cut={cut} />
      <details class="bench-words">
        <summary>{sayCut('figures')}</summary>
        <dl class="facts">
          {figuresOf(cut, bench).map(([name, value]) => [
            <dt key={name}>{name}</dt>,
            <dd key={`${name} is`}>{value}</dd>,
          ])}
        </dl>
      </details>
      <details class="bench-words">
        <summary>{sayCut('assumed')}</summary>
        <ul>
          {sayAssumed(cut).map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </details>
    </section>
  );
}

type MomentsProps = { readonly moments: readonly CutMoment[]; readonly cut: TrialCut };

/** What has happened so far, each with its time. */
export function Moments({ moments, cut }: MomentsProps) {
  return (
    <>
      <h4>{sayCut('moments')}</h4>
      <ol class="bench-cut-moments">
        <li>
          <span class="length">{sayCut('at', { seconds: seconds(0) })}</span> {sayCut('starts')}
        </li>
        {moments.map((one) => (
          <li key={one.kind}>
            <span class="length">{sayCut('at', { seconds: seconds(one.at) })}</span>{' '}
            {sayMoment(one, cut)}
          </li>
        ))}
      </ol>
    </>
  );
}
