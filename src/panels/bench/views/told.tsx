import { type Bench, observe, type Part } from '../../../bench/index.ts';
import { tell } from '../work/tell.ts';

type Props = { readonly bench: Bench; readonly part: Part; readonly turned: number };

/** One part as it looks, in sentences. */
export function Told({ bench, part, turned }: Props) {
  return (
    <ul>
      {observe(bench, turned)
        .filter((one) => one.part === part)
        .map((one) => {
          const sentence = tell(one);
          return <li key={sentence}>{sentence}</li>;
        })}
    </ul>
  );
}
