import type { ComponentChildren } from 'preact';

/** A wide table in its own box, which can be reached and scrolled by keyboard. */
export const ScrollBox = (props: {
  readonly label: string;
  readonly children: ComponentChildren;
}) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
  <section class="table-box" aria-label={props.label} tabIndex={0}>
    {props.children}
  </section>
);
