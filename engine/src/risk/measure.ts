/** What changes in a what-if: mitigations and options taken, sources held still. */
export interface Measures {
  mitigations?: readonly string[]
  options?: readonly string[]
  /**
   * Held at their most likely, not happening, or calm: ids of activities, risks or causes, "failing" and an activity, or
   * "wind".
   */
  frozen?: readonly string[]
}
