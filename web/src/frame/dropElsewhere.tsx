import { useEffect, useState } from 'react'

/** Places that take a dropped file themselves. */
const TAKES = 'input[type="file"], [data-takes-files]'

/** A file that is dropped beside every place that takes one: without this the browser would leave the page for it. */
export function DropElsewhere() {
  const [name, setName] = useState<string>()
  useEffect(() => {
    const over = (event: DragEvent): void => {
      if (isElsewhere(event)) event.preventDefault()
    }
    const drop = (event: DragEvent): void => {
      const isHere = isElsewhere(event)
      if (isHere) event.preventDefault()
      setName(isHere ? (event.dataTransfer?.files[0]?.name ?? 'The file') : undefined)
    }
    addEventListener('dragover', over)
    addEventListener('drop', drop)
    return () => {
      removeEventListener('dragover', over)
      removeEventListener('drop', drop)
    }
  }, [])
  if (name === undefined) return null
  return (
    <p className="small" role="alert">
      <bdi>{name}</bdi> was not read: nothing takes a file here. Progress goes to Programme, ticks to Report, a project
      file to the start of an empty project.{' '}
      <button type="button" className="link" onClick={() => setName(undefined)}>
        Close
      </button>
    </p>
  )
}

function isElsewhere({ dataTransfer, target }: DragEvent): boolean {
  if (dataTransfer === null || ![...dataTransfer.types].includes('Files')) return false
  return !(target instanceof Element && target.closest(TAKES) !== null)
}
