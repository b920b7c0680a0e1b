/** Whether a project is so far from a lift that the first page should lead to it: none is planned, or only the first. */
export function isBeginning(document: unknown): boolean {
  const project = document as { lifts?: object; parts?: object }
  const lifts = Object.keys(project.lifts ?? {}).length
  return lifts === 0 || (lifts === 1 && Object.keys(project.parts ?? {}).length <= 1)
}
