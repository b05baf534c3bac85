/** One line of a list of facts. */
export interface Fact {
  readonly term: string;
  readonly value: string;
}
