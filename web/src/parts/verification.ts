/** A verification case after its run, as the host tells it. */
export interface VerifiedCase {
  id: string
  title?: string
  source: string
  basis: string
  comparisons: readonly { name: string; expected: string; got: string; within: string; holds: boolean }[]
  verdict: 'pass' | 'fail'
  reason?: string
  note?: string
}

/** What cases of a stage call, and how many do. */
export interface Method {
  function: string
  cases: number
}

/** The cases of a formula or function; the host runs them now. */
export async function askCases(name: string): Promise<readonly VerifiedCase[]> {
  return (await asked<{ cases: readonly VerifiedCase[] }>(`function=${encodeURIComponent(name)}`)).cases
}

/** Functions and formulas that the cases of a stage call. */
export async function askMethods(stage: string): Promise<readonly Method[]> {
  return (await asked<{ functions: readonly Method[] }>(`stage=${encodeURIComponent(stage)}`)).functions
}

async function asked<T>(query: string): Promise<T> {
  const response = await fetch(`/api/verification?${query}`)
  if (!response.ok) throw new Error(`answer ${response.status} from the host`)
  return response.json()
}
