import type { ComponentChildren } from 'preact';

type Props = {
  /** read out before the controls; not shown */
  readonly name: string;
  readonly class: string;
  readonly children: ComponentChildren;
};

/** Controls that belong together, named for those who hear them one by one. */
export function Group({ name, class: look, children }: Props) {
  return (
    <fieldset class={`bench-group ${look}`}>
      <legend class="unseen">{name}</legend>
      {children}
    </fieldset>
  );
}
