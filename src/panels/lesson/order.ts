import { say } from './words.ts';

/** Buttons that move a step up or down: they work by finger, mouse and keyboard alike. */
export function startOrders(within: ParentNode = document): void {
  for (const list of within.querySelectorAll<HTMLElement>('ol.order')) {
    for (const step of list.querySelectorAll<HTMLElement>('li')) addButtons(list, step);
    refresh(list);
  }
}

function addButtons(list: HTMLElement, step: HTMLElement): void {
  const name = step.querySelector('.order-text')?.textContent?.trim() ?? '';
  const box = document.createElement('span');
  box.className = 'order-buttons';
  for (const way of ['up', 'down'] as const) {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'button button--quiet';
    button.dataset['way'] = way;
    button.textContent = way === 'up' ? '\u2191' : '\u2193';
    button.setAttribute('aria-label', say(`move.${way}`, { step: name }));
    button.addEventListener('click', () => {
      move(list, step, way);
      // the hand stays on the step it moved; at the end of the list on its other button
      const next = button.disabled
        ? box.querySelector<HTMLElement>('button:not([disabled])')
        : button;
      next?.focus();
    });
    box.append(button);
  }
  step.append(box);
}

function move(list: HTMLElement, step: HTMLElement, way: 'up' | 'down'): void {
  if (way === 'up') step.previousElementSibling?.before(step);
  else step.nextElementSibling?.after(step);
  refresh(list);
  list.dispatchEvent(new CustomEvent('orderchange', { bubbles: true }));
}

function refresh(list: HTMLElement): void {
  const steps = [...list.children];
  for (const [i, step] of steps.entries()) {
    for (const button of step.querySelectorAll<HTMLButtonElement>('[data-way]')) {
      button.disabled = button.dataset['way'] === 'up' ? i === 0 : i === steps.length - 1;
    }
  }
}
