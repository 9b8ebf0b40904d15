import type { MeasuringPointId } from '../../../bench/index.ts';
import type { Desk } from '../work/desk.ts';
import { WithScale } from './later.tsx';

type Props = { readonly desk: Desk; readonly at: MeasuringPointId };

/** The close-up of the scale, under the place where the tool lies now. */
export function OpenScale({ desk, at }: Props) {
  const reading = desk.reading.value?.reading;
  if (reading?.at !== at) return null;
  return <WithScale>{({ ScaleCard }) => <ScaleCard desk={desk} reading={reading} />}</WithScale>;
}
