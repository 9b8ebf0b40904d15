import { digitsFor, type Figure } from '../../../bench/index.ts';
import { englishOnly } from '../../../words/spoken.ts';
import type { Outcome } from '../work/protocol.ts';
import { sayFigure, sayTask } from '../work/task-words.ts';
import '../styles/task.css';
import { Mark } from './mark.tsx';

type Results = Outcome['predictions'];
type Result = Results[number];

const sayOne = ({ value, unit }: Figure): string => sayFigure(value, unit, digitsFor(value));

/** Each figure said beforehand beside the true one, and how that comes about. */
export function BeforehandResults({ results }: { readonly results: Results }) {
  const right = results.filter((one) => one.right).length;
  return (
    <section>
      <h3>{sayTask('result.beforehand')}</h3>
      <p>{sayTask('result.beforehand-count', { right, all: results.length })}</p>
      <ul class="bench-results">
        {results.map((one) => (
          <li key={one.id}>
            <Said result={one} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Said({ result }: { readonly result: Result }) {
  const { said, true: figure, within } = result;
  const { unit } = figure;
  return (
    <>
      <p class="bench-result-head">
        <strong lang={englishOnly()}>{result.ask}</strong>
      </p>
      <dl class="facts">
        <dt>{sayTask('result.said')}</dt>
        <dd>
          {said === null
            ? sayTask('result.unsaid')
            : sayFigure(said, unit, Math.max(digitsFor(said), digitsFor(figure.value)))}
        </dd>
        <dt>{sayTask('result.true')}</dt>
        <dd>{sayOne(figure)}</dd>
      </dl>
      <p class="verdict" data-verdict={result.right ? 'within' : 'outside'}>
        <Mark kind={result.right ? 'safe' : 'warning'} />
        {sayTask(
          result.late
            ? 'result.late'
            : result.right
              ? 'result.hit'
              : said === null
                ? 'result.unsaid'
                : 'result.miss',
        )}
      </p>
      <p class="hint">{sayTask('result.near', { within: sayOne({ value: within, unit }) })}</p>
      <details>
        <summary>{sayTask('result.how')}</summary>
        <ul class="bench-steps" lang={englishOnly()}>
          {result.steps.map((step) => (
            <li key={step.title}>
              <p>
                {step.title}: <strong>{sayOne(step.figure)}</strong>
              </p>
              {step.says !== null && <p>{step.says}</p>}
              {step.from.length > 0 && (
                <ul>
                  {step.from.map((one) => (
                    <li key={one.title}>
                      {one.title}: {sayOne(one.figure)}
                    </li>
                  ))}
                </ul>
              )}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
