import type { Kit } from '../../signing/index.ts';
import { say } from '../say.ts';
import type { Chosen } from '../sheet/place.ts';
import { Choose } from './choose.tsx';
import { LeftHere } from './left-here.tsx';
import { Ready } from './ready.tsx';
import { Waiting } from './waiting.tsx';

type Props = {
  readonly kit: Kit;
  readonly chosen: Chosen;
  /** why what was chosen cannot be opened; null when nothing was */
  readonly problem: string | null;
};

/** Where a practical begins: whom to watch, what lies on this device, and whether it is ready for the machine. */
export function Start({ kit, chosen, problem }: Props) {
  return (
    <>
      <div class="page-head">
        <h1>{say('title')}</h1>
        <p>{say('start.say', { trainer: kit.trainer.name, org: kit.org.name })}</p>
      </div>
      <section aria-labelledby="choose">
        <h2 id="choose">{say('choose')}</h2>
        <Choose kit={kit} chosen={chosen} problem={problem} />
      </section>
      <Waiting trainer={kit.trainer} />
      <LeftHere trainer={kit.trainer.person} />
      <Ready trainer={kit.trainer} />
    </>
  );
}
