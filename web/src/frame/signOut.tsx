import { useEffect, useState } from 'react'

/** Who asks, as the host tells it; without a role where it has no accounts. */
interface Me {
  name: string
  role?: string
}

/** Under which account one works, and the way out of it; nothing on a host without accounts. */
export function SignOut() {
  const [me, setMe] = useState<Me>()
  useEffect(() => {
    const ended = new AbortController()
    fetch('/api/me', { signal: ended.signal })
      .then(async (answer) => answer.ok && setMe(await answer.json()))
      .catch(() => undefined)
    return () => ended.abort()
  }, [])
  if (me?.role === undefined) return null
  return (
    <form method="post" action="/sign-out">
      <span className="quiet" title={`may: ${me.role}`}>
        {me.name}
        <span className="unseen">, {me.role}</span>
      </span>{' '}
      <button type="submit" className="link">
        Sign out
      </button>
    </form>
  )
}
