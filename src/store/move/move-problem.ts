/** A store that cannot be moved. The message is one sentence for whoever asked. */
export class MoveProblem extends Error {
  override readonly name = 'MoveProblem';
}
