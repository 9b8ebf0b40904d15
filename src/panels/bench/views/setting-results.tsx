import { nameMeasure } from '../work/names.ts';
import type { SettingResult } from '../work/protocol.ts';
import { sayResult } from '../work/result-words.ts';
import { sayLength, shownUnit } from '../work/words.ts';
import { Mark } from './mark.tsx';

/** Each setting with its value, verdict, closeness to the aim, and where the limit comes from. */
export function SettingResults({ settings }: { readonly settings: readonly SettingResult[] }) {
  return (
    <ul class="bench-results">
      {settings.map((one) => (
        <li key={`${one.set} ${one.measure} ${one.limit} ${one.source.clause}`}>
          <p class="bench-result-head">
            <strong>{nameMeasure(one.measure, one.title)}</strong>
            <span class="length">{sayValue(one)}</span>
          </p>
          <p class="verdict" data-verdict={one.verdict}>
            <Mark kind={markOf(one)} />
            {sayResult(
              one.verdict === 'outside' && one.critical ? 'verdict.stop' : `verdict.${one.verdict}`,
            )}
          </p>
          {one.closeness !== null && typeof one.value === 'number' && one.verdict !== 'advice' && (
            <Closeness name={nameMeasure(one.measure, one.title)} closeness={one.closeness} />
          )}
          <p class="bench-result-limit">
            {shownUnit.value === 'inch' ? one.limitInch : one.limit}{' '}
            <SourceWords source={one.source} />
          </p>
          {one.advice !== undefined && (
            <p class="bench-result-advice">
              {sayResult('advice', { advice: one.advice[shownUnit.value] })}
            </p>
          )}
        </li>
      ))}
    </ul>
  );
}

function sayValue({ value, unit }: SettingResult): string {
  if (value === null) return sayResult('value.none');
  if (typeof value === 'boolean') return sayResult(value ? 'value.yes' : 'value.no');
  if (typeof value === 'string') return value;
  return unit === 'mm'
    ? sayLength({ mm: value, digits: 2 })
    : `${Number(value.toFixed(2))} ${unit === '1' ? '' : unit}`;
}

function markOf({ verdict, critical }: SettingResult) {
  switch (verdict) {
    case 'within':
      return 'safe';
    case 'outside':
      return critical ? 'prohibition' : 'warning';
    case 'too-close':
      return 'warning';
    case 'advice':
      return 'advice';
    case 'not-applicable':
      return 'none';
  }
}

type ClosenessProps = { readonly name: string; readonly closeness: number };

/** A bar from the limit to the aim; its length is told in words too. */
function Closeness({ name, closeness }: ClosenessProps) {
  const percent = Math.round(Math.max(0, Math.min(1, closeness)) * 100);
  return (
    <div class="bench-close">
      <span aria-hidden="true">{sayResult('close.limit')}</span>
      <meter
        class="unseen"
        min={0}
        max={100}
        value={percent}
        aria-label={sayResult('close.name', { name })}
      >
        {sayResult('close.percent', { percent })}
      </meter>
      <span class="bench-close-bar" aria-hidden="true">
        <span style={{ width: `${percent}%` }} />
      </span>
      <span aria-hidden="true">{sayResult('close.aim')}</span>
    </div>
  );
}

export function SourceWords({ source }: { readonly source: SettingResult['source'] }) {
  const parts = [source.document, source.clause, source.year].filter(
    (part) => part !== undefined && part !== '',
  );
  return (
    <span class="source">
      {source.seen !== 'practice' && `${parts.join(', ')}: `}
      <em>{sayResult(`seen.${source.seen}`)}</em>
    </span>
  );
}
