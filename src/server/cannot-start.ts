/** The site cannot start; the message is one sentence for whoever started it. */
export class CannotStart extends Error {
  override readonly name = 'CannotStart';
}
